import { createContext, useContext, useEffect } from "react";

/** A step hands the cautions of the setting it shows to the panel, where they stay in sight. */
export const CautionsContext = createContext<(cautions: readonly string[]) => void>(() => undefined);

export function useCautions(cautions: readonly string[] | null | undefined): void {
  const show = useContext(CautionsContext);
  const key = (cautions ?? []).join("\n");
  useEffect(() => {
    show(key === "" ? [] : key.split("\n"));
  }, [key, show]);
}
