// Asks the built search what the page would ask: the theme's own worker with the index of the site. Queries come as JSON on standard input; for each
// the pages found go out, the best first, each with its title and the words it says it lacks.

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const site = process.argv[2];
const workers = join(site, "assets", "javascripts", "workers");
const name = readdirSync(workers).find((file) => /^search\..*\.js$/.test(file));
const SETUP = 0;
const QUERY = 2; // the theme's kinds of message

let listen;
let answer;
globalThis.self = globalThis;
globalThis.addEventListener = (_, listener) => (listen = listener);
globalThis.postMessage = (message) => (answer = message);
(0, eval)(readFileSync(join(workers, name), "utf8"));

const ask = async (type, data) => {
  await listen({ data: { type, data } });
  return answer.data;
};

const { config, docs } = JSON.parse(readFileSync(join(site, "search", "search_index.json"), "utf8"));
await ask(SETUP, { config, docs, options: { suggest: false } });
const found = [];
for (const query of JSON.parse(readFileSync(0, "utf8"))) {
  const { items } = await ask(QUERY, query);
  found.push(items.map(([first]) => ({ page: first.location.split("#")[0], at: first.location, lacks: Object.keys(first.terms).filter((term) => !first.terms[term]) })));
}
console.log(JSON.stringify(found));
