import { conductance } from './conductance.js';
import { airEnd, type End, fixedEnd, fluxEnd, platenEnds } from './ends.js';
import type { LayerMesh } from './mesh.js';
import type { HeatRun, Phase, Side } from './types.js';

/** The nodes of one phase in a row: upper platen, cells of the layers lying there, lower platen. */
export interface Chain {
  readonly count: number;
  readonly capacities: Float64Array;
  /** Conductance between node i and i + 1, W/(m²K). */
  readonly links: Float64Array;
  readonly ends: readonly End[];
  readonly topPlaten: number | null;
  readonly bottomPlaten: number | null;
  readonly pieces: readonly ChainPiece[];
  /** Links between a platen and the stack, if they touch. */
  readonly topTouch: number | null;
  readonly bottomTouch: number | null;
}

export interface ChainPiece {
  readonly mesh: LayerMesh;
  readonly firstNode: number;
  readonly upperFace: Face;
  readonly lowerFace: Face;
}

/** A face of a layer: the end it belongs to, or the link through it (to be taken with a sign). */
export interface Face {
  readonly end: number | null;
  readonly link: number | null;
}

/**
 * Face conductance between neighbours: 1/(Δ₁/2k₁ + Rc + Δ₂/2k₂), with curved shells' own resistances for the halves
 * (Patankar, Numerical Heat Transfer and Fluid Flow, 1980, eq. 4.9, with a contact added).
 */
export function buildChain(run: HeatRun, phase: Phase, meshes: readonly LayerMesh[]): Chain {
  const { topPlaten, bottomPlaten, roomC } = run;
  const first = topPlaten === undefined ? 0 : 1;
  const cells = meshes.reduce((sum, mesh) => sum + mesh.capacities.length, 0);
  const count = first + cells + (bottomPlaten === undefined ? 0 : 1);
  const capacities = new Float64Array(count);
  const links = new Float64Array(Math.max(0, count - 1));
  const ends: End[] = [];
  const pieces: ChainPiece[] = [];
  const stacked = meshes.length > 0;
  const topOpen = phase.top.kind !== 'platen' || !stacked;
  const bottomOpen = phase.bottom.kind !== 'platen' || !stacked;

  if (topPlaten !== undefined) {
    capacities[0] = topPlaten.heatCapacityJPerM2K * (topPlaten.areaRatio ?? 1);
    ends.push(...platenEnds(0, topPlaten, roomC, topOpen));
  }
  let node = first;
  let topTouch: number | null = null;
  let bottomTouch: number | null = null;
  meshes.forEach((mesh, m) => {
    const size = mesh.capacities.length;
    const above = meshes[m - 1];
    const joint = mesh.layer.contactM2KPerW ?? 0;
    let upperFace: Face;
    if (above !== undefined) {
      links[node - 1] = conductance(above.lowerHalf.at(-1)! + joint / mesh.upperArea + mesh.upperHalf[0]!);
      upperFace = { end: null, link: node - 1 };
    } else if (phase.top.kind === 'platen') {
      const contact = phase.top.contactM2KPerW ?? joint;
      links[node - 1] = conductance(contact / mesh.upperArea + mesh.upperHalf[0]!);
      topTouch = node - 1;
      upperFace = { end: null, link: node - 1 };
    } else {
      upperFace = addEnd(ends, phase.top, 'top', node, mesh.upperHalf[0]!, mesh.upperArea, joint);
    }
    capacities.set(mesh.capacities, node);
    for (let j = 1; j < size; j += 1)
      links[node + j - 1] = conductance(mesh.lowerHalf[j - 1]! + mesh.upperHalf[j]!);
    const last = node + size - 1;
    let lowerFace: Face = { end: null, link: last };
    if (m === meshes.length - 1) {
      const half = mesh.lowerHalf.at(-1)!;
      if (phase.bottom.kind === 'platen') {
        links[last] = conductance((phase.bottom.contactM2KPerW ?? 0) / mesh.lowerArea + half);
        bottomTouch = last;
      } else {
        lowerFace = addEnd(ends, phase.bottom, 'bottom', last, half, mesh.lowerArea, 0);
      }
    }
    pieces.push({ mesh, firstNode: node, upperFace, lowerFace });
    node += size;
  });
  if (bottomPlaten !== undefined) {
    capacities[count - 1] = bottomPlaten.heatCapacityJPerM2K * (bottomPlaten.areaRatio ?? 1);
    ends.push(...platenEnds(count - 1, bottomPlaten, roomC, bottomOpen));
  }
  return {
    count,
    capacities,
    links,
    ends,
    topPlaten: topPlaten === undefined ? null : 0,
    bottomPlaten: bottomPlaten === undefined ? null : count - 1,
    pieces,
    topTouch,
    bottomTouch,
  };
}

function addEnd(
  ends: End[],
  side: Exclude<Side, { kind: 'platen' }>,
  account: 'top' | 'bottom',
  node: number,
  halfM2KPerW: number,
  area: number,
  jointM2KPerW: number,
): Face {
  if (side.kind === 'insulated' || area === 0) return { end: null, link: null };
  if (side.kind === 'fixed')
    ends.push(fixedEnd(node, account, side, halfM2KPerW, side.contactM2KPerW ?? jointM2KPerW, area));
  else if (side.kind === 'flux') ends.push(fluxEnd(node, account, side, halfM2KPerW, area));
  else ends.push(airEnd(node, account, side, halfM2KPerW, area));
  return { end: ends.length - 1, link: null };
}
