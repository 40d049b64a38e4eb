import { Button, FileButton } from "@mantine/core";
import { words } from "../words/index.ts";
import type { QueuedPhoto } from "./bench-store.ts";
import type { Bench } from "./use-bench.ts";

interface Props {
  readonly label: string;
  readonly coupon: number;
  readonly patch: number | null;
  readonly bench: Bench;
}

const MOST_BYTES = 30_000_000;

/** Takes a photograph with the phone's camera; its bytes wait on this phone like any entry. */
export function TakePhoto({ label, coupon, patch, bench }: Props) {
  const take = async (file: File | null): Promise<void> => {
    if (file === null) return;
    if (file.size > MOST_BYTES) return bench.fail(words.bench.tooLarge);
    try {
      const photo: QueuedPhoto = { bytes: await file.arrayBuffer(), type: file.type };
      await bench.note({ kind: "photo", coupon, patch }, photo);
    } catch (error) {
      bench.fail(words.bench.state.notKept(error instanceof Error ? error.message : String(error)));
    }
  };
  return (
    <FileButton accept="image/*" capture="environment" onChange={take} inputProps={{ "aria-label": label }}>
      {(props) => (
        <Button variant="default" size="md" {...props}>
          {label}
        </Button>
      )}
    </FileButton>
  );
}
