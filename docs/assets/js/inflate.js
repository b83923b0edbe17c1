// A worker of its own that fetches a packed file and unpacks it, so that the worker for Python has its hands free meanwhile. It hands the bytes
// over, or nothing where that fails, and goes.

self.onmessage = async (event) => {
  const port = /** @type {MessagePort} */ (event.ports[0]);
  try {
    const response = await fetch(event.data);
    if (!response.ok || !response.body) throw new Error(`${event.data} answered ${response.status}`);
    const bytes = await new Response(response.body.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
    port.postMessage(bytes, [bytes]);
  } catch {
    port.postMessage(null);
  }
  self.close();
};
