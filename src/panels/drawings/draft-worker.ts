/** Draws what it is ordered to, and sends each drawing back as it is done. */
import { draft, type Order } from "./drafting";

addEventListener("message", (event: MessageEvent<Order>) => draft(event.data, (answer) => postMessage(answer)));
