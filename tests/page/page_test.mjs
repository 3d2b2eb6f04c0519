// Drives the page of `leat try` as its reader would.   node page_test.mjs LEAT WORK_FOLDER
import assert from "node:assert/strict";
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { chromium } from "playwright-core";

const [leat, work] = process.argv.slice(2);
const folder = mkdtempSync(join(work, "farm-"));
const file = join(folder, "two.yaml");
const farm = `farm: Two Troughs  # tried out in the browser
show: metric
springs:
  top: {overflow: 30 m, yield: {Apr: 12 L/min, Aug: 6 L/min}}
tees:
  fork: 10 m
troughs:
  north: {float: 12 m, need: 2 L/min, seat: 6 mm}
  south: {float: 5 m, need: 2 L/min, seat: 6 mm}
pipes:
  main:
    from: top
    to: fork
    size: 25 mm PE100 SDR 11   # bought in May
    length: 100 m
  up: {from: fork, to: north, size: 25 mm PE100 SDR 11, length: 30 m,
       valve: {type: gate, open: 1, at: end}}
  down: {from: fork, to: south, size: 25 mm PE100 SDR 11, length: 30 m}
`;
writeFileSync(file, farm);

const steps = [];
let shown_page = null;
async function step(sentence, act) {
  try {
    await act();
    steps.push(sentence);
  } catch (error) {
    console.error(`FAILED: ${sentence}`);
    throw error;
  }
}

/** Asks until it holds: the page follows in its own time. */
async function until(what, ask, longest = 8000) {
  const end = Date.now() + longest;
  for (;;) {
    const told = await ask();
    if (told) return told;
    if (Date.now() > end) {
      const shown = shown_page ? await shown_page.locator("body").innerText() : "";
      assert.fail(`never came: ${what}; the page says:\n${shown}`);
    }
    await new Promise((done) => setTimeout(done, 25));
  }
}

const server = spawn(leat, ["try", file, "--json", "--no-browser"]);
let announced = "";
await new Promise((done, failed) => {
  server.stdout.on("data", (bytes) => {
    announced += bytes;
    if (announced.includes("}")) done();
  });
  server.on("exit", () => failed(new Error("leat ended before it told its address")));
});
const { address, port } = JSON.parse(announced);
const browser = await chromium.launch({ executablePath: "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"] });
const context = await browser.newContext({ viewport: { width: 1366, height: 768 } });
context.setDefaultTimeout(8000);
const faults = [];
const asked = [];
async function new_page() {
  const page = await context.newPage();
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("request", (request) => asked.push(request.url()));
  await page.goto(address);
  await page.waitForSelector("#drawing svg");
  return page;
}

let failed = true;
try {
  const page = await new_page();
  shown_page = page;
  const text = (selector) => page.locator(selector).innerText();
  const row = (name) => text(`#tables tr:has(th button:text-is("${name}"))`);
  const flags = () => text("#flags");
  const turn = (value) => page.locator("#controls input[type=range]").first().evaluate(
    (slider, to) => {
      slider.value = to;
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      slider.dispatchEvent(new Event("change", { bubbles: true }));
    }, String(value));
  const solved = (path) => spawnSync(leat, ["solve", path], { encoding: "utf8" });

  await step("the page opens on the farm and finds nothing amiss", async () => {
    assert.equal(await text("#farm"), "Two Troughs");
    assert.match(await text("#standing"), /two\.yaml, as saved/);
    assert.match(await row("north"), /2\.00\s+2\.00\s+100\s%\s+ok/);
    assert.match(await flags(), /Nothing amiss that leat checks/);
  });

  await step("a pipe is picked in the drawing with the keyboard", async () => {
    await page.locator("#drawing g.node[aria-label^='up ']").focus();
    await page.keyboard.press("Enter");
    assert.equal(await text("#chosen_title"), "Pipe: up");
  });

  await step("its valve is shut with the keyboard, the trough goes dry, the sentence says so",
    async () => {
      const slider = page.locator("#controls input[type=range]").first();
      await slider.focus();
      await page.keyboard.press("Home");
      await until("a dry trough", async () => /north.*dry/is.test(await row("north")));
      assert.match(await flags(), /north/);
      assert.match(await slider.getAttribute("aria-valuetext"), /shut/);
      assert.match(await text("#standing"), /not saved/);
      assert.match(await page.locator("#spoken").textContent(), /north: dry/);
      assert.ok(await slider.evaluate((one) => one === document.activeElement));
    });

  await step("opened an eighth, the water is what leat solve says of the same text", async () => {
    const dry = await flags();
    await turn(1);
    await until("water at north", async () => !/dry/.test(await row("north")));
    await turn(8);
    await until("all its water", async () => /100/.test(await row("north")));
    await turn(1);
    await until("an eighth", async () => /1.8 open/.test(await text("#controls")));
    assert.notEqual(await flags(), dry);
    // The slider shows its turn before the server has heard of it.
    let held = "";
    await until("an eighth in the text", async () => {
      held = await (await fetch(address + "text")).text();
      return /open: 1\/8/.test(held);
    });
    const copy = join(folder, "copy.yaml");
    writeFileSync(copy, held);
    const told = JSON.parse(
      spawnSync(leat, ["solve", copy, "--json"], { encoding: "utf8" }).stdout);
    assert.deepEqual(await (await fetch(address + "answer")).json(), told);
    rmSync(copy);
  });

  await step("a pipe of another size starves a trough", async () => {
    await page.selectOption("#pick", { label: "pipe main" });
    assert.equal(await text("#chosen_title"), "Pipe: main");
    await until("a profile", () => page.locator("#profile_picture svg").count());
    const length = page.getByLabel("length", { exact: true });
    await length.fill("1500 m");
    await length.press("Enter");
    await until("the new length", async () =>
      /length: 1500 m/.test(await (await fetch(address + "text")).text()));
    await until("enough water still", async () => !/starved|dry/.test(await text("#tables")));
    await page.selectOption("#controls select", "20 mm PE100 SDR 11");
    await until("a starved trough", async () => /starved|dry/.test(await text("#tables")));
    assert.match(await flags(), /caution/i);
    assert.match(await text("#standing"), /caution/);
  });

  await step("the comparison shows what changed and what it was", async () => {
    await page.click("#compare");
    assert.match(await text("#changes"), /main, size\s+25 mm PE100 SDR 11\s+\d+ mm PE100 SDR 11/);
    assert.match(await text("#tables"), /was ok/);
    assert.match(await flags(), /new/i);
    await page.click("#compare");
  });

  await step("what the loader refuses is told with its line, and the water stays", async () => {
    const before = await text("#tables");
    const length = page.getByLabel("length", { exact: true });
    await length.fill("90");
    await length.press("Enter");
    await until("a refusal", async () => page.locator("#refused").isVisible());
    assert.match(await text("#refused"), /two\.yaml:\d+:\d+: error: /);
    assert.equal(await text("#tables"), before);
    await length.fill("1500 m");
    await length.press("Enter");
    await until("no refusal", async () => !(await page.locator("#refused").isVisible()));
  });

  await step("month, load case and a float that hangs open are what this page looks at", async () => {
    await page.selectOption("#month", "Apr");
    await until("April", async () => /Apr/.test(await text("#situation")));
    await page.selectOption("#case", "static");
    await until("standing water", async () => /With every end shut/.test(await text("#tables")));
    await page.selectOption("#case", "needs");
    await page.selectOption("#float", "south");
    await until("a broken float", async () => /Who gets what/.test(await text("#tables")));
    await page.selectOption("#float", "");
    await page.selectOption("#month", "");
    await until("the driest month", async () => /driest/.test(await text("#situation")));
  });

  await step("a second page shows the same water, and follows", async () => {
    const other = await new_page();
    const told = () => other.locator("#tables").innerText();
    assert.match(await told(), /starved|dry/);
    while (await page.locator("#undo").isEnabled()) {
      const steps_left = async () => (await (await fetch(address + "state")).json()).undo_steps;
      const before = await steps_left();
      await page.keyboard.press("Control+z");
      await until("an undone step", async () => (await steps_left()) === before - 1);
      await until("the page's own undo", async () =>
        (await page.locator("#undo").isEnabled()) === (before > 1));
    }
    assert.match(await text("#standing"), /as saved/);
    await until("the other page's water", async () => !/starved|dry/.test(await told()));
    await other.close();
  });

  await step("it is saved as a new file; the old one is not touched and never written over",
    async () => {
      await page.selectOption("#pick", { label: "pipe up" });
      await turn(4);
      await until("a turned valve", async () => /not saved/.test(await text("#standing")));
      await page.click("#save");
      await page.fill("#save_name", "two.yaml");
      await page.click("#save_now");
      await until("a refusal", async () => /there already/.test(await text("#save_problem")));
      await page.fill("#save_name", "half-open.yaml");
      await page.keyboard.press("Enter");
      await until("a saved file", async () => /Saved as half-open/.test(await text("#notice")));
      assert.equal(readFileSync(file, "utf8"), farm);
      const saved = readFileSync(join(folder, "half-open.yaml"), "utf8");
      assert.match(saved, /# bought in May/);
      assert.equal(saved.replace("open: 1/2", "open: 1").replace("at: end, open: 1", "open: 1, at: end"),
        farm);
      assert.ok(solved(join(folder, "half-open.yaml")).status <= 1);
    });

  await step("a file spoilt in an editor shows its line and keeps the last good picture", async () => {
    const before = await page.locator("#drawing svg").count();
    writeFileSync(file, farm.replace("float: 12 m", "float: 12"));
    await until("the mistake", async () => page.locator("#broken").isVisible());
    assert.match(await text("#broken_text"), /two\.yaml:8:18: error: /);
    assert.equal(await page.locator("#drawing svg").count(), before);
    assert.match(await row("north"), /2\.00/);
  });

  await step("mended, the page follows by itself, with what was turned still on top", async () => {
    writeFileSync(file, farm.replace("float: 12 m", "float: 11 m"));
    await until("no mistake", async () => !(await page.locator("#broken").isVisible()));
    assert.match(await (await fetch(address + "text")).text(), /float: 11 m[^]*open: 1\/2/);
  });

  await step("strangers, oversized bodies and paths outside get the right status", async () => {
    const status = async (what, more) => (await fetch(what, more)).status;
    const origin = `http://127.0.0.1:${port}/`;
    assert.equal(await status(origin), 404);
    assert.equal(await status(address + "..%2ftwo.yaml"), 404);
    assert.equal(await status(address + "edit", { method: "POST", body: "x".repeat(200000) }), 413);
    assert.equal(await status(address + "save", { method: "POST",
      body: JSON.stringify({ name: "../out.yaml" }) }), 403);
    assert.equal(await status(address + "state", { headers: { Origin: "http://farm.example" } }), 403);
    assert.ok(!existsSync(join(work, "out.yaml")));
  });

  await step("nothing serious stands in a screen reader's way", async () => {
    const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
    // The page lets no foreign script in; this one comes through the browser's own door.
    await page.evaluate(readFileSync(axe, "utf8"));
    await page.evaluate(() => document.querySelectorAll("details").forEach((one) => {
      one.open = true;
    }));
    const { violations } = await page.evaluate(() => window.axe.run());
    const grave = violations.filter((one) => one.impact === "serious" || one.impact === "critical");
    assert.deepEqual(grave.map((one) => `${one.id}: ${one.nodes.map((node) => node.html)}`), []);
  });

  await step("on a phone nothing runs off the side", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.waitForTimeout(100);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth) <= 390);
  });

  await step("no request left the page's own address, no script failed", async () => {
    assert.deepEqual(asked.filter((one) => !one.startsWith(address)), []);
    assert.deepEqual(faults, []);
  });

  if (process.env.LEAT_SHOTS) {
    await page.screenshot({ path: join(process.env.LEAT_SHOTS, "phone.png"), fullPage: true });
    await page.setViewportSize({ width: 1366, height: 768 });
    await page.screenshot({ path: join(process.env.LEAT_SHOTS, "desk.png"), fullPage: true });
  }
  failed = false;
} finally {
  await browser.close();
  const ended = new Promise((done) => server.on("exit", done));
  server.kill("SIGTERM");
  const code = await ended;
  rmSync(folder, { recursive: true });
  if (!failed) {
    assert.equal(code, 0, "leat ends well when told to");
  }
}
console.log(steps.map((sentence) => `ok: ${sentence}`).join("\n"));
