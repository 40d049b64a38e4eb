import { useEffect, useRef, useState } from "react";
import type { LaserSetup, Setting } from "#terms";
import { axisOver, bandCount, type MapAxis, type MapControl, type MapSpec } from "#workflows";
import { restWorker } from "../../live/worker-client.ts";

/** Chances over two controls, as far as they are known: rows from the bottom up. */
export interface LiveMap {
  readonly setupId: string;
  readonly x: MapAxis;
  readonly y: MapAxis;
  readonly clean: Float32Array;
  readonly undamaged: Float32Array;
  /** 1 where the machine can be set so */
  readonly allowed: Uint8Array;
  /** rows that are known */
  readonly rows: number;
}

const PLACES = 33;
const DRAWS = 16;
const WAIT_MS = 450;

/** Controls that a map may run along: those that the set-up has and offers more than one value of. */
export function mapControlsOf(setup: LaserSetup, setting: Setting): MapControl[] {
  const all: MapControl[] =
    setup.kind === "pulsed"
      ? ["power", "frequency", "pulseWidth", "speed", "lineSpacing", "passes", "defocus"]
      : [
          "level",
          ...(setting.frequency === null ? [] : (["duty", "frequency"] as const)),
          "speed",
          "lineSpacing",
          "passes",
          "defocus",
        ];
  return all.filter((control) => {
    try {
      return axisOver(setup, setting, control, PLACES).values.length > 1;
    } catch {
      return false;
    }
  });
}

/** What the map rests on: everything but the two values that it runs along. */
const heldKey = (setting: Setting, x: MapControl, y: MapControl): string =>
  JSON.stringify(Object.entries(setting).filter(([key]) => key !== x && key !== y));

/** A map over two controls of a setting, band by band, begun anew once what is held has changed and rests. */
export function useMap(
  ready: boolean,
  partKey: string,
  partId: string,
  setup: LaserSetup,
  setting: Setting,
  axes: { readonly x: MapControl; readonly y: MapControl },
): { readonly map: LiveMap | null; readonly working: boolean; readonly line: string | null } {
  const [map, setMap] = useState<LiveMap | null>(null);
  const [working, setWorking] = useState(false);
  const [line, setLine] = useState<string | null>(null);
  const run = useRef(0);
  const key = JSON.stringify([partKey, setup.id, axes, heldKey(setting, axes.x, axes.y)]);
  useEffect(() => {
    const mine = ++run.current;
    if (!ready) return;
    setWorking(true);
    const work = async () => {
      const spec: MapSpec = {
        setting,
        x: axisOver(setup, setting, axes.x, PLACES),
        y: axisOver(setup, setting, axes.y, PLACES),
      };
      const size = spec.x.values.length * spec.y.values.length;
      const next = {
        clean: new Float32Array(size),
        undamaged: new Float32Array(size),
        allowed: new Uint8Array(size).fill(1),
      };
      for (let band = 0; band < bandCount(spec); band++) {
        const made = await restWorker.ask("band", { partId, setupId: setup.id, spec, band, drawCount: DRAWS });
        if (mine !== run.current) return;
        const from = made.from * spec.x.values.length;
        made.clean.forEach((n, i) => {
          next.clean[from + i] = n / DRAWS;
          next.undamaged[from + i] = (made.undamaged[i] ?? 0) / DRAWS;
          next.allowed[from + i] = made.allowed[i] ?? 0;
        });
        setMap({ setupId: setup.id, x: spec.x, y: spec.y, ...next, rows: made.to });
      }
      setWorking(false);
      setLine(null);
    };
    const timer = setTimeout(() => {
      work().catch((error: Error) => {
        if (mine !== run.current) return;
        setWorking(false);
        setLine(error.message);
      });
    }, WAIT_MS);
    return () => {
      clearTimeout(timer);
      // Nobody waits for the bands that are left.
      run.current++;
    };
  }, [ready, key]);
  // The map of the laser that stood here before says nothing of this one.
  return { map: map?.setupId === setup.id ? map : null, working, line };
}
