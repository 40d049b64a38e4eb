import { Component, type ReactNode } from "react";
import { words } from "../words/index.ts";

interface Props {
  readonly children: ReactNode;
}

/** A broken screen says so in one line and leaves the rest of the app standing. */
export class Boundary extends Component<Props, { readonly line: string | null }> {
  override state = { line: null as string | null };

  static getDerivedStateFromError(error: unknown): { line: string } {
    return { line: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    if (this.state.line === null) return this.props.children;
    return (
      <main id="work" tabIndex={-1} className="page">
        <div className="note bad" role="alert">
          <p>{words.frame.broken}</p>
          <p className="small">{this.state.line}</p>
        </div>
        <p style={{ marginTop: 12 }}>
          <a href="#/enquiries" onClick={() => this.setState({ line: null })}>
            {words.frame.backToList}
          </a>
        </p>
      </main>
    );
  }
}
