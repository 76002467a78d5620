import type { BufferGeometry, Group, Mesh, MeshLambertMaterial } from 'three';

/** A piece built for showing: what turns, the face that takes the picture, how far it reaches and where it stands (mm). */
export interface BuiltPiece {
  readonly group: Group;
  readonly face: Mesh<BufferGeometry, MeshLambertMaterial>;
  readonly reachMm: number;
  readonly floorMm: number;
}
