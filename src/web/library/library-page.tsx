import { SegmentedControl, TextInput } from "@mantine/core";
import { useState } from "react";
import { layerKinds, metals, setups } from "#library";
import { citation, isSource } from "#sources";
import { formatNumber } from "#units";
import type { Place } from "../app/route.ts";
import { words } from "../words/index.ts";
import { figuresOf } from "./figures-of.ts";

type Shelf = "metals" | "layers" | "setups";

/** What the predictions rest on, every figure with its spread and its source. */
export function LibraryPage(_: { readonly place: Place }) {
  const [shelf, setShelf] = useState<Shelf>("metals");
  const [search, setSearch] = useState("");
  const entries = shelf === "metals" ? metals : shelf === "layers" ? layerKinds : setups;
  const shown = entries.filter((e) => `${e.name} ${e.id}`.toLowerCase().includes(search.trim().toLowerCase()));
  return (
    <main id="work" tabIndex={-1} className="page">
      <div className="stack">
        <header className="stack tight">
          <h1>{words.library.title}</h1>
          <p className="lead">{words.library.lead}</p>
        </header>
        <div className="row middle">
          <SegmentedControl
            aria-label={words.library.title}
            value={shelf}
            onChange={(v) => setShelf(v as Shelf)}
            data={[
              { value: "metals", label: words.library.metals },
              { value: "layers", label: words.library.layers },
              { value: "setups", label: words.library.setups },
            ]}
          />
          <TextInput
            aria-label={words.library.search}
            placeholder={words.library.search}
            value={search}
            onChange={(e) => setSearch(e.currentTarget.value)}
          />
        </div>
        {shown.map((entry) => (
          <details key={entry.id} className="sheet">
            <summary>
              {entry.name} <span className="small quiet">{entry.id}</span>
            </summary>
            <div className="table">
              <table className="grid">
                <thead>
                  <tr>
                    <th scope="col">{words.library.property}</th>
                    <th scope="col">{words.library.value}</th>
                    <th scope="col">{words.library.spread}</th>
                    <th scope="col">{words.library.source}</th>
                  </tr>
                </thead>
                <tbody>
                  {figuresOf(entry).map((f) => (
                    <tr key={f.name}>
                      <td>{f.name}</td>
                      <td>{f.value}</td>
                      <td>{f.low === null ? "–" : `${formatNumber(f.low, 3)} … ${formatNumber(f.high, 3)}`}</td>
                      <td className="small">
                        {f.source === null ? "–" : isSource(f.source) ? citation(f.source) : f.source}
                        {f.fromMemory ? ` (${words.library.fromMemory})` : ""}
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          </details>
        ))}
      </div>
    </main>
  );
}
