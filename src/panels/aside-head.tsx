/** The head of the panels to measure in and to walk through the structure. */
import { setView } from "../store/view";
import { useFocusBack, useLeaveOnEscape } from "./beside";
import { PanelHead } from "./panel-head";

const leaveAside = (): void => setView({ aside: null });

export const AsideHead = ({ title }: { readonly title: string }) => {
  useFocusBack();
  useLeaveOnEscape(leaveAside);
  return <PanelHead title={title} closeName={`Close ${title.toLowerCase()}`} onClose={leaveAside} />;
};
