import { parentPort, workerData } from "node:worker_threads";
import { type PartWork, taskRunner } from "#workflows";
import { failureOf, type FromThread, type ToThread } from "./messages.ts";

// A thread of a sweep: builds the model of each part once, when a task first asks for it, and keeps it.
const run = taskRunner(workerData as PartWork);
parentPort?.on("message", ({ id, task }: ToThread) => {
  let reply: FromThread;
  try {
    reply = { id, result: run(task) };
  } catch (error) {
    reply = failureOf(id, error);
  }
  parentPort?.postMessage(reply);
});
