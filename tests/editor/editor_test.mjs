// Reads farm files as an editor does: completion, hover and marks by the schema that leat ships.
//   node editor_test.mjs LEAT WORK_FOLDER REPOSITORY
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { isMap, isScalar, isSeq, parseDocument } from "yaml";
import { LanguageServer } from "./language_server.mjs";

const [leat, work, root] = process.argv.slice(2);
const schema_file = join(root, "model/keys/farm.schema.json");
const schema = JSON.parse(readFileSync(schema_file, "utf8"));
const yaml = {
  validate: true,
  hover: true,
  completion: true,
  schemaStore: { enable: false },
  // What stands in the work folder finds the schema by its own first line, or not at all.
  schemas: { [pathToFileURL(schema_file).href]: ["/**/told/*.yaml"] },
};
const server = new LanguageServer(work, { yaml });
await server.begin(pathToFileURL("/farms/told/first.yaml").href, "show: neither\n");

const steps = [];
async function step(sentence, act) {
  try {
    await act();
    steps.push(sentence);
  } catch (error) {
    console.error(`FAILED: ${sentence}`);
    throw error;
  }
}

/** A file the server is told the schema of, whatever the file says. */
function open_told(name, text) {
  const uri = pathToFileURL(join("/farms/told", name)).href; // need not be on the disk
  server.open(uri, text);
  return uri;
}

/** Labels offered where `|` stands in the text. */
async function offered(text) {
  const at = text.indexOf("|");
  const uri = open_told(`complete-${steps.length}-${at}.yaml`, text.replace("|", ""));
  await server.marked(uri); // by then it knows the schema
  const before = text.slice(0, at).split("\n");
  const position = { line: before.length - 1, character: before.at(-1).length };
  const answer = await server.ask("textDocument/completion", { textDocument: { uri }, position });
  return answer.items.map((item) => item.label);
}

const line_of = (mark) => mark.range.start.line + 1;
const told = (marks) => marks.map((mark) => `${line_of(mark)}: ${mark.message}`).join("\n");

const small = `farm: Test
springs: {top: {overflow: 50 m, yield: 6 L/min}}
troughs: {north: {float: 40 m, need: 2 L/min}}
pipes:
  line:
    from: top
    to: north
    size: 1 in SIDR 15
    length: 60 m
`;

await step("inside a pipe every key of a pipe is offered, and no key it has already", async () => {
  const labels = await offered(`${small}    |`);
  const keys = Object.keys(schema.definitions.pipe.properties);
  const has = ["from", "to", "size", "length"];
  assert.deepEqual(labels.filter((label) => keys.includes(label)).sort(),
    keys.filter((key) => !has.includes(key)).sort());
});

await step("at the top every section is offered", async () => {
  const labels = await offered("farm: Test\n|");
  for (const key of Object.keys(schema.properties)) {
    assert.ok(key === "farm" || labels.includes(key), `${key} is not among ${labels}`);
  }
});

await step("where a word of a list is wanted, its words are offered", async () => {
  const wanted = [
    ["show: |", ["US", "metric"]],
    ["surveyed with: |", ["hand level", "builder's level", "water level", "phone"]],
    [`${small}    lies: |`, ["buried", "grass", "sun"]],
    [`${small}    enters: |`, ["rim", "bottom"]],
    [`${small}    one-way: |`, ["yes", "no"]],
    [`${small}    valve:\n      type: |`, ["gate", "ball"]],
    ["ponds:\n  duck pond:\n    seepage: |", ["sand", "loam", "clay"]],
    ["measured:\n  - at: north\n    with: |", ["bucket", "gauge", "water level"]],
    ["troughs:\n  north:\n    enters: |", ["above", "under water"]],
  ];
  for (const [text, words] of wanted) {
    const labels = (await offered(text)).map((label) => label.replace(/^"(.*)"$/, "$1"));
    for (const word of words) {
      assert.ok(labels.includes(word), `${text.slice(-40)}: ${word} is not among ${labels}`);
    }
  }
});

await step("kinds of stock and months are offered", async () => {
  const stock = await offered("troughs:\n  north:\n    herd:\n      |");
  assert.ok(stock.includes("dry beef cow") && stock.includes("ewe"), `${stock}`);
  const months = await offered("springs:\n  top:\n    yield:\n      |");
  assert.ok(months.includes("Jan") && months.includes("Dec"), `${months}`);
});

/** The schemas that a value may follow, references taken. */
function candidates(part) {
  if (part === undefined || part === true) return [];
  const inner = [];
  if (part.$ref) inner.push(schema.definitions[part.$ref.split("/").at(-1)]);
  for (const list of [part.allOf, part.anyOf]) inner.push(...(list ?? []));
  return [part, ...inner.flatMap(candidates)];
}

/** What the schema says of each key on the way to a value; null for names of one's own. */
function described(tree, parts, visit) {
  if (isMap(tree)) {
    for (const pair of tree.items) {
      const key = String(pair.key.value);
      const known = parts.map((part) => part.properties?.[key]).find((part) => part);
      const others = parts.map((part) => part.additionalProperties).filter((part) => part);
      if (known) visit(pair.key, key, known);
      described(pair.value, candidates(known).length ? candidates(known)
        : others.flatMap(candidates), visit);
    }
  } else if (isSeq(tree)) {
    for (const item of tree.items) {
      if (!isScalar(item)) described(item, parts.flatMap((part) => candidates(part.items)), visit);
    }
  }
}

await step("hovering over a key tells what the schema says of it", async () => {
  const text = readFileSync(join(root, "tests/farms/every-key.yaml"), "utf8");
  const uri = open_told("hover.yaml", text);
  const lines = text.split("\n");
  const starts = [0];
  for (const line of lines) starts.push(starts.at(-1) + line.length + 1);
  const asked = new Map(); // the key and what it says: where it was hovered over
  described(parseDocument(text).contents, candidates(schema), (node, key, part) => {
    const line = starts.findIndex((start) => start > node.range[0]) - 1;
    const character = node.range[0] - starts[line] + 1; // within the word
    asked.set(`${key}: ${part.description}`, { line, character });
  });
  assert.ok(asked.size > 120, `only ${asked.size} keys were hovered over`);
  const plain = (words) => words.replace(/[^A-Za-z0-9]+/g, "");
  for (const [what, position] of asked) {
    const hover = await server.ask("textDocument/hover", { textDocument: { uri }, position });
    const says = hover?.contents?.value ?? "";
    const description = what.slice(what.indexOf(": ") + 2);
    assert.ok(plain(says).includes(plain(description)), `${what}\nbut it says:\n${says}`);
  }
});

await step("every demo farm and test farm is free of marks", async () => {
  for (const folder of ["networks-demo", "tests/farms"]) {
    const names = readdirSync(join(root, folder)).filter((name) => name.endsWith(".yaml"));
    assert.ok(names.length > 2);
    const opened = names.map((name) =>
      [name, open_told(name, readFileSync(join(root, folder, name), "utf8"))]);
    for (const [name, uri] of opened) {
      assert.equal(told(await server.marked(uri)), "", name);
    }
  }
});

// What an editor marks in another line than leat, or not at all, and why. All else that a schema
// can say is marked in the line that leat names.
const elsewhere = new Map([
  ["bracket-never-closed", "marked where the reader of YAML gave up, not where the bracket is"],
  ["place-cut-by-hash", "marked where the reader of YAML gave up, not where the bracket is"],
  ["quote-never-closed", "marked where the reader of YAML gave up, not where the quote is"],
  ["key-without-colon", "marked where the key began for the reader of YAML"],
  ["keys-nested-too-deep", "marked at the first of the keys, as unknown"],
]);
const unmarked = new Map([
  ["comments-only", "a document of nothing is not held against the schema"],
  ["escape-byte", "an editor shows bytes that are no text as other letters"],
  ["not-utf8", "an editor shows bytes that are no text as other letters"],
  ["nul-byte", "an editor shows bytes that are no text as other letters"],
  ["overlong-utf8", "an editor shows bytes that are no text as other letters"],
  ["size-cut-at-comma", "the server passes over a key without value in brackets"],
]);

await step("what is broken is marked in the line that leat names", async () => {
  const folder = join(root, "tests/broken-farms");
  const names = readdirSync(folder).filter((name) => name.endsWith(".yaml"));
  const opened = names.map((name) => {
    const text = readFileSync(join(folder, name), "utf8");
    return { name, text, uri: open_told(name, text) };
  });
  let compared = 0;
  const complaints = [];
  for (const { name, text, uri } of opened) {
    const marks = await server.marked(uri);
    const run = spawnSync(leat, ["read", join(folder, name), "--json"], { encoding: "utf8" });
    const lines = JSON.parse(run.stdout).problems.map((problem) => problem.line);
    const is_marked = marks.some((mark) => lines.includes(line_of(mark)));
    const short = basename(name, ".yaml");
    if (text.startsWith("# schema: cannot say")) continue;
    if (unmarked.has(short) || elsewhere.has(short)) {
      if (is_marked) complaints.push(`${short} is marked in the right line: take it off the list`);
      if (elsewhere.has(short) && marks.length === 0) complaints.push(`${short} is not marked`);
      continue;
    }
    compared += 1;
    if (!is_marked) complaints.push(`${short}: leat names ${lines}, the editor\n${told(marks)}`);
  }
  assert.equal(complaints.join("\n"), "");
  assert.ok(compared > 100, `only ${compared} broken farms were compared`);
});

await step("a missing unit is told in words, with an example", async () => {
  const uri = open_told("unit.yaml", small.replace("60 m", "60"));
  assert.match(told(await server.marked(uri)), /^9: write a length with its unit, such as 120 ft/m);
});

/** Runs leat's `new` and opens what it wrote; marks before and after a slip. */
async function starter_marks(program, file, words) {
  const run = spawnSync(program, ["new", file, ...words], { encoding: "utf8" });
  assert.equal(run.status, 0, run.stderr);
  const text = readFileSync(file, "utf8");
  const uri = pathToFileURL(file).href;
  server.open(uri, text);
  const clean = told(await server.marked(uri));
  const slip = pathToFileURL(file.replace(/\.yaml$/, " slip.yaml")).href;
  server.open(slip, text.replace("overflow: 140 ft", "overflow: 140"));
  return { clean, slip: told(await server.marked(slip)), first: text.split("\n")[0] };
}

function expect_helped({ clean, slip, first }) {
  assert.match(first, /^# yaml-language-server: \$schema=\S+farm\.schema\.json$/);
  assert.equal(clean, "", first);
  assert.match(slip, /write a level with its unit/, first);
}

const folder = mkdtempSync(join(work, "farms in a folder-"));
try {
  await step("what leat new writes brings the editor's help along, in a build folder", async () => {
    expect_helped(await starter_marks(leat, join(folder, "built.yaml"), []));
  });

  await step("it does so from an installed leat, even where its folder has a blank", async () => {
    const place = join(folder, "odd % place");
    mkdirSync(join(place, "bin"), { recursive: true });
    mkdirSync(join(place, "share/leat"), { recursive: true });
    copyFileSync(leat, join(place, "bin/leat"));
    copyFileSync(schema_file, join(place, "share/leat/farm.schema.json"));
    expect_helped(await starter_marks(join(place, "bin/leat"), join(folder, "inst.yaml"), []));
  });

  await step("with --schema it stands beside the file, for a machine without leat", async () => {
    const marks = await starter_marks(leat, join(folder, "own.yaml"), ["--schema"]);
    assert.equal(marks.first, "# yaml-language-server: $schema=farm.schema.json");
    assert.equal(marks.clean, "");
    assert.match(marks.slip, /write a level with its unit/);
    assert.ok(readFileSync(join(folder, "farm.schema.json")).equals(readFileSync(schema_file)),
      "it is not the schema");
  });

  await step("a leat that finds no schema writes no line about one", async () => {
    const bare = join(folder, "bare");
    mkdirSync(bare);
    copyFileSync(leat, join(bare, "leat"));
    const file = join(folder, "plain.yaml");
    assert.equal(spawnSync(join(bare, "leat"), ["new", file]).status, 0);
    assert.match(readFileSync(file, "utf8"), /^# A farm for leat/);
  });
} finally {
  rmSync(folder, { recursive: true });
}

await server.end();
console.log(`${steps.length} steps:\n  ${steps.join("\n  ")}`);
process.exit(0);
