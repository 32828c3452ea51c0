/** Draws what it is ordered to, and sends each drawing back as it is done. */
import { draft } from "./drafting";
import type { Order } from "./orders";

addEventListener("message", (event: MessageEvent<Order>) => draft(event.data, (answer) => postMessage(answer)));
