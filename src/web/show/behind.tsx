import { Popover } from "@mantine/core";
import { words } from "../words/index.ts";

/** Equation, words, source and inputs of a number. */
export interface Behind {
  readonly equation: string;
  readonly words: string;
  readonly source: string;
  /** what goes in, as shown */
  readonly inputs: readonly { readonly name: string; readonly value: string }[];
}

/** A number's name that opens what stands behind it. */
export function OpenName({ name, behind }: { readonly name: string; readonly behind: Behind }) {
  return (
    <Popover width={340} position="bottom-start" withArrow shadow="md" trapFocus returnFocus>
      <Popover.Target>
        <button type="button" className="open-name" aria-label={words.behind.open(name)}>
          {name}
        </button>
      </Popover.Target>
      <Popover.Dropdown className="behind">
        <p className="equation">{behind.equation}</p>
        <p className="small">{behind.words}</p>
        {behind.inputs.length > 0 ? (
          <p className="small">
            <strong>{words.behind.inputs}</strong> {behind.inputs.map((i) => `${i.name} ${i.value}`).join(", ")}
          </p>
        ) : null}
        <p className="small quiet">
          <strong>{words.behind.source}</strong> {behind.source}
        </p>
      </Popover.Dropdown>
    </Popover>
  );
}
