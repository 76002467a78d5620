import type { World } from './worlds.js';

/**
 * A yes/no variable that depends on others by a table. The book itself needs none (its causes are independent, its
 * findings noisy-OR), but a published network is written so, and goes through the same worlds.
 */
export interface TableNode {
  readonly parents: readonly number[];
  /** Chance of "yes" for each state of the parents; the first parent is the highest bit, no = 0, yes = 1. */
  readonly chanceOfYes: readonly number[];
}

/** Chance that the node is "yes" in a world; worlds list the variables that are "yes". */
export function chanceInWorld(node: TableNode, world: World): number {
  let row = 0;
  for (const parent of node.parents) row = row * 2 + (world.includes(parent) ? 1 : 0);
  return node.chanceOfYes[row]!;
}

/** ln P(world) of a network of such variables: the product of each one's chance given its parents. */
export function logPriorOfTables(nodes: readonly TableNode[], worlds: readonly World[]): Float64Array {
  return Float64Array.from(worlds, (world) => {
    let log = 0;
    nodes.forEach((node, i) => {
      const yes = chanceInWorld(node, world);
      log += Math.log(world.includes(i) ? yes : 1 - yes);
    });
    return log;
  });
}
