// All that a page runs of ours. The build joins it, with what it imports, into one file of this name (tools/site/bundle.py).

import "./page_parts.js";
import "./go_on.js";
import "./hand.js";
import "./moving.js";
import "./folds.js";
import "./stage.js";
import "./mount.js";
import "./shelf.js";
import "./waiting.js";
import "./quotation.js";
import "./offline.js";

// for whoever measures and tests
export { client } from "./client.js";
export { controls, nameOf, readForm } from "./form.js";
export { showAnswer } from "./render.js";
export { packed } from "./saved.js";
export { spelledValue } from "./units.js";
