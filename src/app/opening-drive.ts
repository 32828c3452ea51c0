/** What a first visit opens on: a crank of 20 teeth that turns an upright bevel wheel of 40. */

import { newDrive } from "../engine/drive/defaults";
import { readDrive } from "../engine/drive/parse";
import type { Drive } from "../engine/drive/types";
import file from "./opening-drive.json";

export const openingDrive = (): Drive => readDrive(file).drive ?? newDrive();
