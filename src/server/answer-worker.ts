import { parentPort, workerData } from "node:worker_threads";
import { type AnswerWork, workAnswer } from "./work-answer.ts";

parentPort?.postMessage(workAnswer(workerData as AnswerWork));
