// A worker of its own that fetches a packed file and unpacks it, so that the worker for Python has its hands free meanwhile.

self.addEventListener("message", async (event) => {
  const post = /** @type {(data: unknown, transfer?: Transferable[]) => void} */ (/** @type {any} */ (self).postMessage.bind(self));
  try {
    const response = await fetch(event.data);
    if (!response.ok || !response.body) throw new Error(`${event.data} answered ${response.status}`);
    const bytes = await new Response(response.body.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
    post({ bytes }, [bytes]);
  } catch (error) {
    post({ why: String(error) });
  }
});
