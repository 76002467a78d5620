export type * from "./link.js";
