import type { Chain, ChainPiece } from './chain.js';
import type { Flows } from './stepper.js';

/** Temperature of a layer's upper face; the joint's own drop lies above it. */
export function upperFaceC(chain: Chain, piece: ChainPiece, celsius: Float64Array, flows: Flows): number {
  const node = piece.firstNode;
  const { end, link } = piece.upperFace;
  if (end !== null) return flows.faceC[end]!;
  if (link === null) return celsius[node]!;
  return (
    celsius[node]! + piece.mesh.upperHalf[0]! * chain.links[link]! * (celsius[link]! - celsius[link + 1]!)
  );
}

export function lowerFaceC(chain: Chain, piece: ChainPiece, celsius: Float64Array, flows: Flows): number {
  const node = piece.firstNode + piece.mesh.capacities.length - 1;
  const { end, link } = piece.lowerFace;
  if (end !== null) return flows.faceC[end]!;
  if (link === null) return celsius[node]!;
  return (
    celsius[node]! - piece.mesh.lowerHalf.at(-1)! * chain.links[link]! * (celsius[link]! - celsius[link + 1]!)
  );
}

/** Straight lines between face, cells' middles and face: of second order, as the cells are. */
export function probeC(
  chain: Chain,
  piece: ChainPiece,
  depth: number,
  celsius: Float64Array,
  flows: Flows,
): number {
  const { middles } = piece.mesh;
  if (depth <= 0) return upperFaceC(chain, piece, celsius, flows);
  if (depth >= 1) return lowerFaceC(chain, piece, celsius, flows);
  let above = 0;
  let aboveC = upperFaceC(chain, piece, celsius, flows);
  for (let j = 0; j < middles.length; j += 1) {
    const below = middles[j]!;
    const belowC = celsius[piece.firstNode + j]!;
    if (depth <= below) return aboveC + ((depth - above) / (below - above)) * (belowC - aboveC);
    above = below;
    aboveC = belowC;
  }
  const lowest = lowerFaceC(chain, piece, celsius, flows);
  return aboveC + ((depth - above) / (1 - above)) * (lowest - aboveC);
}
