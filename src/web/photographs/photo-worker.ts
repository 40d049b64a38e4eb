// @ts-expect-error: the published types have no default export, the library has nothing else
import cv from "@techstark/opencv-js/dist/opencv.js";
import { lookAtPhoto, type Photo, rectifiedCoupon } from "#grading";
import { type MarkerFinder, openMarkerFinder } from "#markers";
import { InvalidInput } from "#units";
import { decodeInBrowser, jpegFile } from "./decode-in-browser.ts";
import type { FlatAsk, FromPhotoWorker, NamedPhoto, PhotoProgress, PhotoQuestion } from "./protocol.ts";
import { plansAsPrinted, readPhotographs } from "./read-photographs.ts";
import { Undecodable } from "./undecodable.ts";

/** Looks at photographs away from the page: 10 MB of marker finder and some seconds for each picture. */
let finder: Promise<MarkerFinder> | null = null;
const findMarkers = async () => {
  finder ??= openMarkerFinder({ cv });
  return (await finder).findMarkers;
};

async function decode({ name, sha256 }: NamedPhoto): Promise<Photo> {
  const answer = await fetch(`/api/photos/${sha256}`);
  if (!answer.ok) throw new InvalidInput("photo", name, "", "the server does not give it back");
  return decodeInBrowser(await answer.blob(), name);
}

async function flatOf(ask: FlatAsk): Promise<Blob | null> {
  const photo = await decode(ask.photo);
  const plans = plansAsPrinted(ask.trial, ask);
  const { coupon, map } = lookAtPhoto(ask.photo.name, photo, plans, await findMarkers());
  const frame = plans.find((p) => p.coupon === coupon)?.frame;
  return map === null || frame === undefined ? null : jpegFile(rectifiedCoupon(photo, map, frame));
}

const say = (message: FromPhotoWorker): void => postMessage(message);

async function answer({ kind, ask }: PhotoQuestion): Promise<FromPhotoWorker> {
  if (kind === "flat") return { state: "flat", file: await flatOf(ask) };
  const tools = {
    decode,
    findMarkers: await findMarkers(),
    toFile: jpegFile,
    say: (progress: PhotoProgress) => say({ state: "progress", progress }),
  };
  return { state: "read", answer: await readPhotographs(ask, tools) };
}

addEventListener("message", ({ data }: MessageEvent<PhotoQuestion>) => {
  answer(data).then(say, (error: unknown) => {
    if (error instanceof Undecodable) return say({ state: "undecodable", name: error.message });
    const line = error instanceof Error ? error.message : String(error);
    say({ state: "failed", line: error instanceof InvalidInput ? line : `the photographs could not be read: ${line}` });
  });
});
