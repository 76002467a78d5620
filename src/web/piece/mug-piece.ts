import {
  CatmullRomCurve3,
  CylinderGeometry,
  DoubleSide,
  Group,
  LatheGeometry,
  Mesh,
  MeshStandardMaterial,
  TubeGeometry,
  Vector2,
  Vector3,
} from 'three';
import type { Blank } from '#contract';
import { bodyColours, printMaterial } from './body-colours.js';
import type { BuiltPiece } from './built-piece.js';

type Cylinder = Extract<Blank['shape'], { kind: 'cylinder' }>;

/** Wall thickness and handle are drawn as such things usually are; only the printed face is to size. */
export function mugPiece(shape: Cylinder, material: Blank['material']): BuiltPiece {
  const radius = shape.diameterMm / 2;
  const height = shape.heightMm;
  const wall = Math.min(4, radius * 0.12);
  const body = new MeshStandardMaterial({ color: bodyColours[material], roughness: 0.35, side: DoubleSide });
  const group = new Group();

  const lip = wall / 2;
  const profile = [
    new Vector2(0, -height / 2 + wall),
    new Vector2(radius - wall, -height / 2 + wall),
    new Vector2(radius - wall, height / 2 - lip),
    new Vector2(radius - lip, height / 2),
    new Vector2(radius, height / 2 - lip),
    new Vector2(radius, -height / 2 + lip),
    new Vector2(radius - lip, -height / 2),
    new Vector2(0, -height / 2),
  ];
  const cup = new Mesh(new LatheGeometry(profile, 96), body);
  cup.castShadow = true;
  cup.receiveShadow = true;
  group.add(cup);

  // The camera fits this radius into the view; a cylinder fills it less than a ball would.
  let reach = Math.hypot(radius, height / 2) * 0.9;
  if (shape.handle) {
    const out = Math.min(height * 0.42, radius * 0.85);
    const up = height * 0.3;
    const curve = new CatmullRomCurve3(
      [
        [-(radius - wall), up],
        [-(radius + out * 0.62), up * 1.02],
        [-(radius + out), up * 0.35],
        [-(radius + out * 0.86), -up * 0.5],
        [-(radius + out * 0.4), -up * 0.98],
        [-(radius - wall), -up * 1.08],
      ].map(([z, y]) => new Vector3(0, y, z)),
    );
    const handle = new Mesh(new TubeGeometry(curve, 64, Math.max(3.5, height * 0.055), 20), body);
    handle.castShadow = true;
    group.add(handle);
    reach = Math.hypot(radius + out * 0.45, height / 2) * 0.9;
  }

  // The picture goes round as far as its development is wide; its middle is opposite the handle.
  const angle = Math.min(2 * Math.PI, (Math.PI * shape.diameterMm - shape.gapMm) / radius);
  const face = new Mesh(
    new CylinderGeometry(radius + 0.15, radius + 0.15, height - lip * 2, 128, 1, true, -angle / 2, angle),
    printMaterial(),
  );
  face.receiveShadow = true;
  group.add(face);
  return {
    group,
    face,
    reachMm: reach,
    floorMm: -height / 2,
  };
}
