// The page on which a customer reads a quotation. All of it comes with the link; Python is not started, and nothing is kept.

import { readPicture, readTold } from "./quotation_told.js";
import { element } from "./render.js";
import { readLink, unpackedText } from "./saved.js";
import { onEachPage } from "./theme.js";

/** @import { Told } from "./quotation_told.js" */

const NAME = "quotation";
let asked = 0; // the newest link wins

/** Show the quotation of the page's link, where the page is for that. */
async function show() {
  const place = document.querySelector(".pb-quotation");
  const link = place && readLink(location.hash, NAME);
  asked += 1;
  document.documentElement.removeAttribute("data-quotation");
  if (!place || !link) return;
  const mine = asked;
  let shown;
  try {
    const told = readTold(await unpackedText(link.text ?? ""));
    const picture = readPicture(link.picture ?? "");
    shown = sheet(told, picture && URL.createObjectURL(picture));
  } catch (error) {
    const isNewer = error instanceof RangeError && error.message === "newer";
    const words = isNewer ? "A newer handbook made this link. Load this page again." : "This link is incomplete, so there is nothing to read. Ask for all of it to be sent again.";
    shown = element("p", { class: "pb-quotation-wrong", role: "alert" }, words);
  }
  if (mine !== asked) return;
  place.replaceChildren(shown);
  document.documentElement.toggleAttribute("data-quotation", shown.tagName === "ARTICLE");
}

/** @param {Told} told @param {string | null} picture its address */
function sheet({ title, parts }, picture) {
  const [head, ...others] = parts;
  const print = element("button", { type: "button", class: "pb-print" }, "Print it");
  print.addEventListener("click", () => globalThis.print());
  const image = picture ? element("img", { src: picture, alt: "The cake, drawn from in front and a little above" }) : null;
  image?.addEventListener("error", () => image.remove()); // damaged on the way
  return element(
    "article",
    {},
    element("p", { class: "pb-quotation-foot" }, "Quotation"),
    element("h2", {}, title),
    element("div", { class: "pb-quotation-head" }, image, lines(head?.rows ?? [])),
    ...others.flatMap(({ h, p, rows }) => [element("h3", {}, h), ...p.map((text) => element("p", {}, text)), lines(rows)]),
    element("p", { class: "pb-quotation-foot" }, "All of this came with the link, from whoever sent it to you. Opening it sent nothing to anybody. Answer them as you always do."),
    print,
  );
}

/** Labels with their texts; nothing where there are none. @param {[string, string][]} rows */
function lines(rows) {
  if (!rows.length) return null;
  return element("dl", {}, ...rows.map(([label, text]) => element("div", {}, element("dt", {}, label), element("dd", {}, text))));
}

onEachPage(show);
addEventListener("hashchange", show);
