import { parentPort, workerData } from "node:worker_threads";
import { type DeskWork, deskWork } from "./desk-work.ts";

parentPort?.postMessage(await deskWork(workerData as DeskWork));
