/** Hands a photo to the worker and waits for what it says. */
declare global {
  interface Window {
    ask(message: unknown): Promise<unknown>;
  }
}

window.ask = (message) =>
  new Promise((resolve, reject) => {
    const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }) => resolve(data);
    worker.onerror = (event) => reject(new Error(event.message));
    worker.postMessage(message);
  });

export {};
