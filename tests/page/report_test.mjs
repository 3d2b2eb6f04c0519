// Reads reports as a browser does.   node report_test.mjs LEAT WORK_FOLDER DEMO_FOLDER
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { chromium } from "playwright-core";

const [leat, work, demos] = process.argv.slice(2);
const folder = mkdtempSync(join(work, "report-"));
const axe = readFileSync(createRequire(join(work, "x.mjs")).resolve("axe-core/axe.min.js"), "utf8");
const farms = ["05-tangle", "16-ram-and-siphon-on-one-site", "19-weak-line"];
let failures = 0;

async function step(sentence, act) {
  try {
    await act();
    console.log(`ok: ${sentence}`);
  } catch (error) {
    failures += 1;
    console.error(`FAILED: ${sentence}\n${error.stack}`);
  }
}

function report(farm, ...more) {
  const out = join(folder, `${farm}.html`);
  const run = spawnSync(leat, ["report", join(demos, `${farm}.yaml`), "-o", out, "--replace", ...more], {
    env: { ...process.env, SOURCE_DATE_EPOCH: "1786000000" },
    encoding: "utf8",
  });
  assert.ok(run.status < 2, `leat report ${farm}: ${run.status} ${run.stderr}`);
  return out;
}

const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });

async function opened(file, width, media) {
  // Scripts of the page's own would not run (its policy forbids them); axe is put in past that.
  const context = await browser.newContext({ viewport: { width, height: 900 }, bypassCSP: true });
  const page = await context.newPage();
  await page.emulateMedia({ media });
  const requests = [];
  const complaints = [];
  page.on("request", (request) => requests.push(request.url()));
  page.on("console", (message) => complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.goto(`file://${file}`);
  return { page, context, requests, complaints };
}

for (const farm of farms) {
  const file = report(farm);
  await step(`${farm}: nothing but the page itself is asked for`, async () => {
    const { context, requests, complaints } = await opened(file, 1280, "screen");
    assert.deepEqual(requests, [`file://${file}`]);
    assert.deepEqual(complaints, []);
    await context.close();
  });
  for (const width of [1280, 390]) {
    await step(`${farm}: no finding of axe at ${width} px, and nothing wider than the screen`, async () => {
      const { page, context } = await opened(file, width, "screen");
      await page.addScriptTag({ content: axe });
      const found = await page.evaluate(async () => {
        const result = await window.axe.run(document, { resultTypes: ["violations"] });
        return result.violations.map((each) => `${each.impact} ${each.id}: ${each.nodes[0].html}`);
      });
      assert.deepEqual(found, []);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `${wide} px too wide`);
      await context.close();
    });
  }
  // A4 less its margins of 15 mm is the narrower sheet: 180 mm at 96 dots an inch.
  await step(`${farm}: no table or picture is clipped on paper`, async () => {
    const { page, context } = await opened(file, Math.floor((180 / 25.4) * 96), "print");
    const clipped = await page.evaluate(() =>
      [...document.querySelectorAll("table, pre, svg, p, li, dd")]
        .filter((each) => each.getBoundingClientRect().right > innerWidth + 0.5)
        .map((each) => `${each.tagName} ${each.textContent.slice(0, 60)}`),
    );
    assert.deepEqual(clipped, []);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(wide <= 0, `${wide} px run off the sheet`);
    await context.close();
  });
}

function pages_of(pdf) {
  const told = spawnSync("pdfinfo", [pdf], { encoding: "utf8" }).stdout;
  return {
    count: Number(/Pages:\s+(\d+)/.exec(told)[1]),
    width: Number(/Page size:\s+([\d.]+)/.exec(told)[1]),
    tagged: /Tagged:\s+yes/.test(told),
  };
}

const tangle_pdf = report("05-tangle", "--pdf").replace(/html$/, "pdf");

await step("a metric farm's PDF is A4, a US farm's Letter, and they have the pages they need", async () => {
  const tangle = pages_of(tangle_pdf);
  assert.ok(Math.abs(tangle.width - 595) < 1, `${tangle.width} points wide`);
  assert.ok(tangle.count >= 8 && tangle.count <= 20, `${tangle.count} pages`);
  assert.ok(tangle.tagged);
  const short = report("02-high-trough", "--pdf", "--units", "US", "--chapters", "water");
  const us = pages_of(short.replace(/html$/, "pdf"));
  assert.ok(Math.abs(us.width - 612) < 1, `${us.width} points wide`);
  assert.ok(us.count <= 2, `${us.count} pages`);
});

await step("the PDF holds the text of the page to its last line, and no page is empty", async () => {
  const text = spawnSync("pdftotext", ["-layout", tangle_pdf, "-"], { encoding: "utf8" }).stdout;
  for (const word of ["Burdock Tangle", "Schematic", "Whom to ask", "cross valve"]) {
    assert.ok(text.includes(word), word);
  }
  const sheets = text.split("\f").slice(0, -1);
  sheets.forEach((sheet, i) => assert.ok(sheet.trim().length > 40, `page ${i + 1} is nearly empty`));
});

await browser.close();
rmSync(folder, { recursive: true });
process.exit(failures === 0 ? 0 : 1);
