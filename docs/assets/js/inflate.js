// A worker of its own that fetches a packed file and unpacks it, so that the worker for Python has its hands free meanwhile. It hands the bytes
// over, or nothing where that fails, and goes; meanwhile it tells how many have come.

import { counting } from "./counting.js";

self.onmessage = async (event) => {
  const port = /** @type {MessagePort} */ (event.ports[0]);
  try {
    const response = await fetch(event.data);
    if (!response.ok || !response.body) throw new Error(`${event.data} answered ${response.status}`);
    const counted = response.body.pipeThrough(counting((bytes) => port.postMessage(bytes)));
    const bytes = await new Response(counted.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
    port.postMessage(bytes, [bytes]);
  } catch {
    port.postMessage(null);
  }
  self.close();
};
