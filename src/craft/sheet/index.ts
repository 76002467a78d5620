export type * from "./plan.js";
