import { buildLink, buildProofLink, type DeviceLink, type ReachTable, reachTable } from '#craft/icc';
import { threadWork } from '#shop/threads';
import type { ColourTask } from './colour-pool.js';

/** Works one table out in a thread of its own: a CMYK link takes long enough to stall a server. */
export default threadWork((task: ColourTask): DeviceLink | ReachTable => {
  switch (task.kind) {
    case 'link':
      return buildLink(task.options);
    case 'proof':
      return buildProofLink(task.path);
    case 'reach':
      return reachTable(task.options);
  }
});
