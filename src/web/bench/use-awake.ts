import { useEffect, useState } from "react";

/** Keeps the screen on while the page is looked at. True while the browser does so. */
export function useAwake(): boolean {
  const [awake, setAwake] = useState(false);
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let gone = false;
    // The browser takes it away whenever the page is not looked at.
    const ask = async () => {
      if (gone || document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
      try {
        lock = await navigator.wakeLock.request("screen");
        lock.addEventListener("release", () => setAwake(false));
        if (gone) await lock.release();
        else setAwake(true);
      } catch {
        setAwake(false);
      }
    };
    void ask();
    document.addEventListener("visibilitychange", ask);
    return () => {
      gone = true;
      document.removeEventListener("visibilitychange", ask);
      void lock?.release().catch(() => undefined);
    };
  }, []);
  return awake;
}
