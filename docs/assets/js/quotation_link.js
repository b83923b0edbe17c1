// Makes the link that a customer gets. It carries the words of the quotation and a small picture, and nothing of the order they were made from.

import { client } from "./client.js";
import { element } from "./render.js";
import { base64url, linkOf, packed } from "./saved.js";

const WIDE = 400; // pixels of the picture
const QUALITY = 0.6;
const HOLDS = "It carries what the quotation says and a small picture: no costs, hours, rate or margin.";

/**
 * Make the link, copy it, and offer it to be opened beside the button.
 * @param {HTMLElement} button @param {{ start: () => void, inputs: () => Record<string, string>, say: (text: string) => void, problems: (problems: any[]) => void }} page
 */
export async function linkCustomer(button, page) {
  page.start();
  page.say("Writing the quotation.");
  const inputs = page.inputs();
  const asked = JSON.stringify(inputs);
  try {
    const made = await client.sheet("order", inputs, "quotation-link", "A4");
    if (!(made instanceof Uint8Array)) {
      page.problems(made.problems ?? []);
      page.say("There is no quotation yet: something in the order is to be put right first.");
      return;
    }
    const { told, drawing } = JSON.parse(new TextDecoder().decode(made));
    const head = told.parts[0].rows;
    if (!head.some((/** @type {string[]} */ [label]) => label === "Date")) head.unshift(["Date", new Date().toLocaleDateString("en-GB", { dateStyle: "long" })]);
    const text = await packed(JSON.stringify(told));
    const picture = await pictureOf(drawing).catch(() => ""); // the words go without it
    const address = new URL(`../quotation/${linkOf("quotation", { text, ...(picture && { picture }) })}`, location.origin + location.pathname).href;
    const open = element("a", { class: "pb-customer-open", href: address, target: "_blank", rel: "noopener" }, "Read it as the customer does");
    offer(open, button, () => JSON.stringify(page.inputs()) === asked);
    const copied = await navigator.clipboard.writeText(address).then(() => "The customer’s link is copied.", () => "Copy the link below from your browser’s menu.");
    page.say(`${copied} ${HOLDS}`);
  } catch {
    page.say("The calculator did not answer, so there is no link. What you typed is kept.");
  }
}

/**
 * Show the link beside its button for as long as the order is as it was: whatever is shown there next takes it away.
 * @param {HTMLElement} open @param {HTMLElement} button @param {() => boolean} isCurrent
 */
function offer(open, button, isCurrent) {
  const root = button.closest(".pb-calculator");
  const show = () => {
    const place = root?.querySelector(".pb-customer-link");
    const old = root?.querySelector(".pb-customer-open");
    if (old && old !== open && isCurrent()) old.remove();
    if (place && isCurrent()) place.after(open);
    else for (const kind of ["pb-answer", "pb-drawn"]) root?.removeEventListener(kind, show);
  };
  for (const kind of ["pb-answer", "pb-drawn"]) root?.addEventListener(kind, show);
  show();
}

/** A drawing as a small picture, packed for a link. @param {string} svg */
async function pictureOf(svg) {
  const [, , , wide, high] = /viewBox="(\S+) (\S+) (\S+) (\S+)"/.exec(svg) ?? [];
  const tall = Math.round((WIDE * Number(high)) / Number(wide));
  const image = new Image();
  const address = URL.createObjectURL(new Blob([svg.replace("<svg ", `<svg width="${WIDE}" height="${tall}" `)], { type: "image/svg+xml" }));
  image.src = address;
  await image.decode();
  const canvas = Object.assign(document.createElement("canvas"), { width: WIDE, height: tall });
  const pen = canvas.getContext("2d");
  if (!pen) return "";
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, WIDE, tall);
  pen.drawImage(image, 0, 0, WIDE, tall);
  URL.revokeObjectURL(address);
  const as = (/** @type {string} */ type) => new Promise((/** @type {(blob: Blob | null) => void} */ done) => canvas.toBlob(done, type, QUALITY));
  let blob = await as("image/webp");
  if (blob?.type !== "image/webp") blob = await as("image/jpeg"); // some browsers write no other
  return blob ? base64url(new Uint8Array(await blob.arrayBuffer())) : "";
}
