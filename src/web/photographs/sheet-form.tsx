import { Button, TextInput } from "@mantine/core";
import { words } from "../words/index.ts";
import type { SheetRead, SheetTyped } from "./sheet-as-printed.ts";

interface Props {
  readonly typed: SheetTyped;
  readonly read: SheetRead;
  /** mm of the ruler as drawn */
  readonly nominal: number;
  readonly onType: (typed: SheetTyped) => void;
  /** null where there is nothing to read again, or no use in it */
  readonly onReadAgain: (() => void) | null;
}

const say = words.photographs.sheet;

/** How the frame sheet came out of the printer: its scale, and its greys where somebody measured them. */
export function SheetForm({ typed, read, nominal, onType, onReadAgain }: Props) {
  const wrong = "wrong" in read ? read.wrong : null;
  return (
    <details className="sheet-form">
      <summary>{say.title}</summary>
      <div className="stack tight">
        <div className="row">
          <TextInput
            label={`${say.ruler} (mm)`}
            placeholder={String(nominal)}
            inputMode="decimal"
            w={200}
            value={typed.ruler}
            error={wrong === "ruler" ? say.rulerWrong(`${nominal} mm`) : undefined}
            onChange={(e) => onType({ ...typed, ruler: e.currentTarget.value })}
            maxLength={12}
          />
          <TextInput
            className="grow"
            miw={250}
            label={say.greys}
            value={typed.greys}
            error={wrong === "greys" ? say.greysWrong : undefined}
            onChange={(e) => onType({ ...typed, greys: e.currentTarget.value })}
            maxLength={120}
          />
        </div>
        <p className="small quiet">{say.rulerHelp(`${nominal} mm`)}</p>
        <p className="small quiet">{say.greysHelp}</p>
        {onReadAgain === null ? null : (
          <div className="row">
            <Button variant="default" onClick={onReadAgain} disabled={wrong !== null}>
              {say.readAgain}
            </Button>
          </div>
        )}
      </div>
    </details>
  );
}
