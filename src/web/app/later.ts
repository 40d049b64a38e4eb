import { type ComponentType, createElement, lazy, type ReactElement, useState } from "react";

/** A page whose script comes when it is needed, or was read ahead: then it stands in the frame in which it is opened. */
export interface Later<P> {
  (props: P): ReactElement;
  readonly read: () => Promise<unknown>;
}

/**
 * As React's `lazy`, which shows its stand-in for 300 ms at least, however near the script is; one that is there is
 * shown at once.
 */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): Later<P> {
  let known: ComponentType<P> | null = null;
  const read = async () => {
    known = await load();
    return { default: known };
  };
  const Waiting = lazy(read) as ComponentType<P>;
  const Page = (props: P) => {
    // Chosen once: what changed its kind on the way would forget what was entered into it.
    const [Shown] = useState<ComponentType<P>>(() => known ?? Waiting);
    return createElement(Shown, props);
  };
  return Object.assign(Page, { read });
}
