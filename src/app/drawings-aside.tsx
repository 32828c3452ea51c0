import { DrawingsPanel } from "../panels/drawings/drawings-panel";
import { CommandButton } from "./command-button";
import { figuresCommand } from "./commands/view-commands";

/** The drawings, with the way to figures of them. */
export const DrawingsAside = () => <DrawingsPanel aside={<CommandButton command={figuresCommand} />} />;
