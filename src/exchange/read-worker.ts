/** Reads one text and sends back what it is. */
import { parseDrive } from "../engine/drive/parse";

addEventListener("message", (event: MessageEvent<string>) => postMessage(parseDrive(event.data)));
