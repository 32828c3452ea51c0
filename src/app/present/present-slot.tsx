import { type ComponentType, useEffect, useState } from "react";
import { notify } from "../../exchange/notices";
import { useView } from "../../store/view";
import { startPresenting, stopPresenting } from "./presenting";

/** The presentation did not come: the page is as it was, and it is offered again. */
const missed = (): void => {
  stopPresenting();
  notify({
    tone: "alert",
    text: "What presents could not be loaded. Everything else works without it.",
    action: { words: "Try again", run: startPresenting },
  });
};

/** The presentation while there is one; its code comes with the first. */
export const PresentSlot = () => {
  const isOn = useView((state) => state.presenting);
  const [Present, setPresent] = useState<ComponentType | null>(null);

  useEffect(() => {
    if (isOn && !Present) import("./present").then((come) => setPresent(() => come.Present), missed);
  }, [isOn, Present]);

  return isOn && Present ? <Present /> : null;
};
