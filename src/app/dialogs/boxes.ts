/** Every dialog by its name. */
import type { ComponentType } from "react";
import type { DialogName } from "./dialog-store";
import { FiguresDialog } from "./figures-dialog";
import { KeysDialog } from "./keys-dialog";
import { LessonsDialog } from "./lessons-dialog";
import { MenuDialog } from "./menu-dialog";
import { SamplesDialog } from "./samples-dialog";
import { SavedDialog } from "./saved-dialog";
import { ShareDialog } from "./share/share-dialog";
import { SpaceDialog } from "./space-dialog";
import { UnitsDialog } from "./units-dialog";

export { RefusedDialog } from "./refused-dialog";

export const BOXES: Readonly<Record<DialogName, ComponentType>> = {
  keys: KeysDialog,
  samples: SamplesDialog,
  saved: SavedDialog,
  menu: MenuDialog,
  share: ShareDialog,
  units: UnitsDialog,
  space: SpaceDialog,
  figures: FiguresDialog,
  lessons: LessonsDialog,
};
