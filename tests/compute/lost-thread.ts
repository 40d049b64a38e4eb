import { parentPort } from "node:worker_threads";

// A thread that ends without a word when it is given something to do.
parentPort?.on("message", () => process.exit(3));
