import { Button } from "@mantine/core";
import { useState } from "react";
import type { Trial } from "#terms";
import { standingEntries } from "#trial";
import { words } from "../words/index.ts";
import { EntryForm } from "./entry-form.tsx";
import { TakePhoto } from "./take-photo.tsx";
import type { Bench } from "./use-bench.ts";

const say = words.bench;

/** Photographs of whole coupons for the desk, and a note on the whole trial. */
export function CouponPhotos({ trial, bench }: { readonly trial: Trial; readonly bench: Bench }) {
  const [noting, setNoting] = useState(false);
  const taken = standingEntries(bench.state.entries).filter((e) => e.kind === "photo" && e.patch === null);
  return (
    <section className="sheet stack tight">
      <h2>{say.couponPhotos}</h2>
      <p className="small quiet">{say.couponPhotosHelp}</p>
      {trial.coupons.map(({ coupon, label }) => {
        const count = taken.filter((e) => e.coupon === coupon).length;
        return (
          <div className="row middle" key={coupon}>
            <TakePhoto label={say.couponPhoto(label)} coupon={coupon} patch={null} bench={bench} />
            {count > 0 ? <span className="small quiet">{say.photosTaken(count)}</span> : null}
          </div>
        );
      })}
      {noting ? (
        <EntryForm kind="note" patch={null} onKeep={bench.note} onClose={() => setNoting(false)} />
      ) : (
        <div>
          <Button size="md" variant="default" onClick={() => setNoting(true)}>
            {say.noteOnTrial}
          </Button>
        </div>
      )}
    </section>
  );
}
