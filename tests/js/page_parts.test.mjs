// The root of the document says which large parts its page has, and says it again for each page.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openPage, script, show } from "./page.mjs";

const window = openPage();
/** @type {() => void} */ let changePage = () => {};
window.document$ = { subscribe: (/** @type {() => void} */ act) => { changePage = act; act(); } };
const root = document.documentElement;
const PARTS = {
  record: '<section class="pb-calculator" data-record="orders"></section>',
  stage: '<div class="pb-stage"></div>',
  jump: '<nav class="pb-jump"></nav>',
  pair: '<div class="pb-pair"></div>',
};

test("a page says what it has, in one order, and nothing where it has none", async () => {
  show(PARTS.pair + PARTS.record);
  await script("page_parts");
  assert.equal(root.dataset.has, "record pair");
  for (const [name, html] of Object.entries(PARTS)) {
    show(html);
    changePage();
    assert.equal(root.dataset.has, name);
  }
  show('<section class="pb-calculator"></section>');
  changePage();
  assert.equal("has" in root.dataset, false);
});
