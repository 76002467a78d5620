import { ExtrudeGeometry, Group, Mesh, MeshStandardMaterial, Shape, ShapeGeometry } from 'three';
import type { Blank } from '#contract';
import { isShirt } from '../words/index.js';
import { bodyColours, printMaterial } from './body-colours.js';
import type { BuiltPiece } from './built-piece.js';
import { shirtOutline } from './shirt-outline.js';

type Flat = Exclude<Blank['shape'], { kind: 'cylinder' }>;

/** Usual thickness, mm, for drawing only. */
const thickness: Record<Blank['material'], number> = {
  ceramic: 6,
  glass: 5,
  slate: 6,
  metal: 1.2,
  'wood-board': 4,
  plastic: 3,
  textile: 1,
  other: 3,
};

/** Lying on the bench, picture up. A print for a shirt lies on the chest of one. */
export function flatPiece(shape: Flat, { material, name }: Pick<Blank, 'material' | 'name'>): BuiltPiece {
  const deep = Math.min(thickness[material], Math.max(shape.widthMm, shape.heightMm) * 0.08);
  const group = new Group();
  const shirt = material === 'textile' && isShirt(name) ? shirtOutline(shape) : null;
  const bevel = Math.min(deep / 4, 1);
  const body = new Mesh(
    new ExtrudeGeometry(shirt?.path ?? outline(shape, -bevel), {
      depth: deep - bevel * 2,
      bevelEnabled: true,
      bevelThickness: bevel,
      bevelSize: bevel,
      bevelSegments: 3,
      curveSegments: 48,
    }),
    new MeshStandardMaterial({
      color: bodyColours[material],
      roughness: material === 'textile' ? 0.95 : 0.5,
    }),
  );
  body.castShadow = true;
  body.receiveShadow = true;

  const flat = new ShapeGeometry(outline(shape, 0), 48);
  const place = flat.getAttribute('position');
  const uv = flat.getAttribute('uv');
  // A round picture's own edge is smoothed towards what lies outside it: stay a hair inside.
  const inside = shape.kind === 'ellipse' ? 0.99 : 1;
  for (let i = 0; i < place.count; i += 1) {
    uv.setXY(
      i,
      (place.getX(i) / shape.widthMm) * inside + 0.5,
      (place.getY(i) / shape.heightMm) * inside + 0.5,
    );
  }
  const face = new Mesh(flat, printMaterial());
  face.position.z = deep - bevel + Math.max(0.15, Math.max(shape.widthMm, shape.heightMm) * 0.001);
  face.receiveShadow = true;

  const lying = new Group();
  lying.add(body, face);
  // The middle of the whole thing to the middle of the view.
  for (const part of [body, face]) part.position.y = shirt?.printAboveMiddleMm ?? 0;
  lying.rotation.x = -Math.PI / 2;
  group.add(lying);
  return {
    group,
    face,
    floorMm: -bevel,
    reachMm:
      shirt?.reachMm ??
      (shape.kind === 'ellipse'
        ? Math.max(shape.widthMm, shape.heightMm) / 2
        : (Math.hypot(shape.widthMm, shape.heightMm) / 2) * 0.9),
  };
}

function outline(shape: Flat, growMm: number): Shape {
  const halfWidth = shape.widthMm / 2 + growMm;
  const halfHeight = shape.heightMm / 2 + growMm;
  const path = new Shape();
  if (shape.kind === 'ellipse') {
    path.absellipse(0, 0, halfWidth, halfHeight, 0, Math.PI * 2, false, 0);
    return path;
  }
  const r = Math.max(0.01, Math.min(shape.cornerRadiusMm + growMm, halfWidth, halfHeight));
  path.moveTo(-halfWidth + r, -halfHeight);
  path.lineTo(halfWidth - r, -halfHeight);
  path.absarc(halfWidth - r, -halfHeight + r, r, -Math.PI / 2, 0, false);
  path.lineTo(halfWidth, halfHeight - r);
  path.absarc(halfWidth - r, halfHeight - r, r, 0, Math.PI / 2, false);
  path.lineTo(-halfWidth + r, halfHeight);
  path.absarc(-halfWidth + r, halfHeight - r, r, Math.PI / 2, Math.PI, false);
  path.lineTo(-halfWidth, -halfHeight + r);
  path.absarc(-halfWidth + r, -halfHeight + r, r, Math.PI, Math.PI * 1.5, false);
  return path;
}
