import { Button } from "@mantine/core";
import type { Library } from "#library";
import { words } from "../words/index.ts";
import { withValue } from "./entry-draft.ts";
import { groupTitle } from "./entry-figures.tsx";
import { colourClasses, type Group, groupThere } from "./fields.ts";
import type { FieldProps } from "./field-props.ts";
import { FormField } from "./form-field.tsx";
import { entriesOf } from "./origins.ts";
import { isTree, type Path, placeName, readAt } from "./tree.ts";
import { Tick } from "./typed-input.tsx";

type Props = Omit<FieldProps, "field"> & { readonly group: Group; readonly library: Library };

const say = words.library.form;

/** A block of the kind from the first entry that has one: numbers to start from, which keep their source. */
function blockFrom(library: Library, shelf: Props["draft"]["shelf"], block: Path): unknown {
  return entriesOf(library, shelf)
    .map((entry) => readAt(entry, block))
    .find(isTree);
}

/** The fields of one group; a block that an entry may leave out comes with a tick. */
export function GroupFields({ group, library, ...rest }: Props) {
  const { draft, change, problems } = rest;
  const { block } = group;
  const there = groupThere(draft.entry, group);
  const own = block === undefined ? undefined : problems[placeName(block)];
  const template = block === undefined || there ? null : blockFrom(library, draft.shelf, block);
  return (
    <section className="sheet stack tight">
      <h2>{groupTitle(group)}</h2>
      {block === undefined || (!there && template === undefined) ? null : (
        <Tick
          label={say.blockKnown(groupTitle(group))}
          checked={there}
          onChange={(on) =>
            change(
              (d) => withValue(d, block, on ? template : group.key === "char" ? undefined : null),
              placeName(block),
            )
          }
        />
      )}
      {own === undefined ? null : <p className="lib-problem">{own}</p>}
      {there ? (
        <div className="lib-fields">
          {group.fields.map((field) => (
            <FormField key={placeName(field.path)} {...rest} field={field} />
          ))}
        </div>
      ) : (
        <p className="quiet">{words.library.noBlock[group.key]}</p>
      )}
      {group.key === "optics" ? <DropColour {...rest} colour={group.of ?? ""} /> : null}
    </section>
  );
}

const coloursOf = (draft: Props["draft"]) => Object.keys((draft.entry.optics ?? {}) as object);

function DropColour({ draft, change, colour }: Omit<FieldProps, "field"> & { readonly colour: string }) {
  if (coloursOf(draft).length < 2) return null;
  return (
    <div>
      <Button
        variant="subtle"
        color="gray"
        size="compact-sm"
        onClick={() =>
          change(
            (d) => withValue(withValue(d, ["optics", colour], undefined), ["appearance", colour], undefined),
            `drop ${colour}`,
          )
        }
      >
        {say.dropColour(words.library.values[colour] ?? colour)}
      </Button>
    </div>
  );
}

/** One more colour class, starting as a copy of the last one. */
export function AddColour({ draft, change }: Omit<FieldProps, "field">) {
  const there = coloursOf(draft);
  const free = colourClasses.filter((c) => !there.includes(c));
  const last = there[there.length - 1] ?? "";
  if (free.length === 0) return null;
  return (
    <section className="sheet row middle">
      <span className="quiet">{say.addColour}</span>
      {free.map((colour) => (
        <Button
          key={colour}
          variant="default"
          size="compact-sm"
          onClick={() =>
            change((d) => {
              const copied = withValue(d, ["optics", colour], readAt(d.entry, ["optics", last]));
              return withValue(copied, ["appearance", colour], readAt(d.entry, ["appearance", last]));
            }, `add ${colour}`)
          }
        >
          {words.library.values[colour]}
        </Button>
      ))}
    </section>
  );
}
