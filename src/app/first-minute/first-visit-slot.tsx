import { type ComponentType, useEffect, useState } from "react";
import { mayBeFirstVisit } from "./first-visit";

/** The first minute, fetched where this may be a first visit. Nobody asked for it: where it does not come nothing is said. */
export const FirstVisit = () => {
  const [FirstMinute, setFirstMinute] = useState<ComponentType | null>(null);

  useEffect(() => {
    if (!mayBeFirstVisit(window.location.search)) return;
    let gone = false;
    import("./first-minute").then(
      (loaded) => gone || setFirstMinute(() => loaded.FirstMinute),
      () => undefined,
    );
    return () => {
      gone = true;
    };
  }, []);

  return FirstMinute && <FirstMinute />;
};
