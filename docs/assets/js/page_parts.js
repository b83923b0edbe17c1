// Says on the root of the document which large parts its page has. The build writes the same into each page (tools/site/pages.py); a change of page
// leaves the root as it is. Style sheets go by this attribute, because what depends on `:has()` is matched again whenever something is put into the
// page, and half of the page with it.

import { onEachChange } from "./theme.js";

const PARTS = { record: ".pb-calculator[data-record]", stage: ".pb-stage", jump: ".pb-jump", pair: ".pb-pair" };

onEachChange(() => {
  const found = Object.entries(PARTS).filter(([, selector]) => document.querySelector(selector));
  const { dataset } = document.documentElement;
  if (found.length) dataset.has = found.map(([name]) => name).join(" ");
  else delete dataset.has;
});
