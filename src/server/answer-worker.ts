import { parentPort, workerData } from "node:worker_threads";
import { type AnswerWork, workAnswer } from "./work-answer.ts";

parentPort?.postMessage(await workAnswer(workerData as AnswerWork));
