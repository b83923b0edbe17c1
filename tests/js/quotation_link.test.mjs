// The link that a customer gets: what it carries, what is said beside its button, and how long it stays there. How the small picture is drawn needs
// a browser's canvas (tests/browser/test_quotation.py); here there is none, and the words go without it.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { all, one, openPage, script, show } from "./page.mjs";

openPage({ url: "https://handbook.example/plan/whole-cake/" });
const { client } = await script("client");
const { linkCustomer } = await script("quotation_link");
const { readLink, unpackedText } = await script("saved");

/** What Python gives for the quotation. @type {any} */ let made;
/** @type {any[]} */ let asked = [];
/** @type {string[]} */ let said = [];
/** @type {any[][]} */ let problems = [];
/** @type {string[]} */ let copied = [];
/** @type {Record<string, string>} */ let inputs = {};
let canCopy = true;

client.sheet = async (/** @type {any[]} */ ...given) => {
  asked.push(given);
  if (made instanceof Error) throw made;
  return made;
};
Object.defineProperty(navigator, "clipboard", {
  value: { writeText: async (/** @type {string} */ text) => { if (!canCopy) throw new Error("denied"); copied.push(text); } },
});

const written = (/** @type {any[]} */ rows) =>
  new TextEncoder().encode(JSON.stringify({ told: { version: 1, title: "Harvest", parts: [{ h: "", p: [], rows }] }, drawing: '<svg viewBox="0 0 4 3"></svg>' }));
const page = { start: () => said.push("(start)"), inputs: () => inputs, say: (/** @type {string} */ text) => said.push(text), problems: (/** @type {any[]} */ found) => problems.push(found) };
const press = () => linkCustomer(one(".pb-customer-link"), page);
const carried = async () => JSON.parse(await unpackedText(readLink(new URL(one(".pb-customer-open").href).hash, "quotation")?.text));
/** A new answer takes the place of the old one: the button is another, and the link beside it is gone. */
const answerAnew = (/** @type {string} */ kind) => {
  one(".pb-answer").innerHTML = '<button class="pb-customer-link">Copy</button>';
  one(".pb-calculator").dispatchEvent(new CustomEvent(kind));
};

beforeEach(() => {
  [made, asked, said, problems, copied, inputs, canCopy] = [written([["For", "Orchard"]]), [], [], [], [], { rate: "18" }, true];
  show('<section class="pb-calculator"><div class="pb-answer"><button class="pb-customer-link">Copy</button></div></section>');
});

test("the link leads to the page of the quotation and is copied as it stands", async () => {
  await press();
  const address = one(".pb-customer-open").href;
  assert.match(address, /^https:\/\/handbook\.example\/plan\/quotation\/#quotation:text=[\w-]+$/);
  assert.deepEqual(copied, [address]);
  assert.deepEqual(asked, [["order", { rate: "18" }, "quotation-link", "A4"]]);
  assert.deepEqual(said.slice(0, 2), ["(start)", "Writing the quotation."]);
  assert.match(said.at(-1) ?? "", /^The customer’s link is copied\. .*no costs/);
});

test("it carries what the quotation says, with today's date at its head", async () => {
  await press();
  assert.deepEqual(Object.keys(readLink(new URL(one(".pb-customer-open").href).hash, "quotation") ?? {}), ["text"]);
  const { title, parts } = await carried();
  assert.equal(title, "Harvest");
  const [[label, day], ...others] = parts[0].rows;
  assert.equal(label, "Date");
  assert.match(day, /^\d{1,2} [A-Z][a-z]+ \d{4}$/);
  assert.deepEqual(others, [["For", "Orchard"]]);
});

test("a date that the order gives stays", async () => {
  made = written([["For", "Orchard"], ["Date", "1 May"]]);
  await press();
  assert.deepEqual((await carried()).parts[0].rows, [["For", "Orchard"], ["Date", "1 May"]]);
});

test("where the page may not copy, the link is there to be copied by hand", async () => {
  canCopy = false;
  await press();
  assert.ok(one(".pb-customer-open"));
  assert.match(said.at(-1) ?? "", /^Copy the link below/);
});

test("an order with something to put right has no link, and what is wrong is shown", async () => {
  made = { problems: [{ input: "rate" }] };
  await press();
  assert.deepEqual(problems, [[{ input: "rate" }]]);
  assert.match(said.at(-1) ?? "", /no quotation yet/);
  assert.equal(all(".pb-customer-open").length + copied.length, 0);
});

test("without an answer that is said, and nothing is lost", async () => {
  made = new Error("no answer");
  await press();
  assert.match(said.at(-1) ?? "", /did not answer/);
  assert.equal(all(".pb-customer-open").length + copied.length, 0);
});

for (const kind of ["pb-answer", "pb-drawn"]) {
  test(`after ${kind} the link stands beside its button as long as the order is the same`, async () => {
    await press();
    answerAnew(kind);
    assert.equal(one(".pb-customer-link").nextElementSibling, one(".pb-customer-open"));
    inputs = { rate: "19" };
    answerAnew(kind);
    assert.equal(all(".pb-customer-open").length, 0);
    inputs = { rate: "18" };
    answerAnew(kind);
    assert.equal(all(".pb-customer-open").length, 0, "a link that was taken away does not come back");
  });
}

test("there is one link, the newest", async () => {
  await press();
  made = written([["For", "Meadow"]]);
  await press();
  assert.equal(all(".pb-customer-open").length, 1);
  assert.equal((await carried()).parts[0].rows[1][1], "Meadow");
});
