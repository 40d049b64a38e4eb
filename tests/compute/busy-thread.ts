import { parentPort } from "node:worker_threads";

// A thread that never comes to an end of what it is given.
parentPort?.on("message", () => {
  for (;;);
});
