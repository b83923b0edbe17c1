// Evaluated in a page: makes edits in a calculator's form, one after the other, and says how long each answer took, and how
// long until the picture stood there that comes after it. An edit that asks for
// something impossible is taken back and not counted.

async ({ slug, edits, pause }) => {
  const root = document.querySelector(`.pb-calculator[data-calculator="${slug}"]`);
  const base = document.querySelector("script[src$='/handbook.js']").src;
  const { client } = await import(base);
  const compute = client.compute;
  let worked = 0;
  let asked = null;
  client.compute = async function (...given) {
    const start = performance.now();
    const answer = await compute.apply(client, given);
    worked = performance.now() - start;
    asked = given;
    return answer;
  };
  const settled = () =>
    new Promise((done) => {
      const observer = new MutationObserver(() => {
        if (root.dataset.state !== "ready" && root.dataset.state !== "failed") return;
        observer.disconnect();
        clearTimeout(tooLong);
        done(performance.now());
      });
      const tooLong = setTimeout(() => {
        observer.disconnect();
        done(null);
      }, 10_000);
      observer.observe(root, { attributes: true, attributeFilter: ["data-state"] });
    });
  const put = async (field, text) => {
    if (field.type === "checkbox") field.checked = text === "yes";
    else field.value = text;
    const whenSettled = settled();
    const start = performance.now();
    field.dispatchEvent(new Event("input", { bubbles: true }));
    const end = await whenSettled;
    if (root.hasAttribute("data-old-picture")) await new Promise((done) => root.addEventListener("pb-picture", done, { once: true }));
    return end === null ? null : { answer: end - start, picture: performance.now() - start };
  };
  const rest = () => new Promise((done) => setTimeout(() => requestAnimationFrame(() => setTimeout(done, pause)), 0));
  const times = [];
  const refused = [];
  for (const [name, text] of edits) {
    const field = root.querySelector(`[data-name="${name}"]`);
    const before = field.type === "checkbox" ? (field.checked ? "yes" : "no") : field.value;
    asked = null;
    const took = await put(field, text);
    if (root.dataset.state === "failed" || root.querySelector(".pb-failure")) throw new Error(`${slug}: ${name} = ${text} met a fault`);
    if (took === null || !asked) {
      refused.push([name, text, "nothing was asked"]);
    } else if (root.querySelector(".pb-answer[data-stale]")) {
      refused.push([name, text, root.querySelector(".pb-problem:not(:empty)")?.textContent ?? ""]);
      await rest();
      await put(field, before);
    } else {
      times.push({ page: took.answer, picture: took.picture, worker: worked, inputs: asked[1], place: asked[2], name });
    }
    await rest();
  }
  client.compute = compute;
  return { times, refused };
}
