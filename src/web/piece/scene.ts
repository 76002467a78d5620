import {
  Color,
  DirectionalLight,
  HemisphereLight,
  Mesh,
  PCFShadowMap,
  PerspectiveCamera,
  PlaneGeometry,
  Scene,
  ShadowMaterial,
  SRGBColorSpace,
  type Texture,
  TextureLoader,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { Blank } from '#contract';
import { flatPiece } from './flat-piece.js';
import { mugPiece } from './mug-piece.js';

export interface PieceScene {
  setPicture(url: string): Promise<void>;
  /** Turn about the upright axis and camera height, degrees; both 0 until told. */
  look(turnDegrees: number, tiltDegrees: number): void;
  resize(widthPixels: number, heightPixels: number): void;
  dispose(): void;
}

const radians = (degrees: number) => (degrees * Math.PI) / 180;

/** Draws on demand, never in a loop: a still piece costs nothing. Throws where WebGL is not to be had. */
export function createPieceScene(
  canvas: HTMLCanvasElement,
  blank: Pick<Blank, 'shape' | 'material' | 'name'>,
): PieceScene {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true, powerPreference: 'low-power' });
  renderer.outputColorSpace = SRGBColorSpace;
  renderer.shadowMap.enabled = true;
  renderer.shadowMap.type = PCFShadowMap;
  renderer.setPixelRatio(Math.min(globalThis.devicePixelRatio || 1, 2));

  const piece =
    blank.shape.kind === 'cylinder' ? mugPiece(blank.shape, blank.material) : flatPiece(blank.shape, blank);
  const scene = new Scene();
  scene.add(piece.group);
  lightUp(scene, piece.reachMm);
  const floor = new Mesh(
    new PlaneGeometry(piece.reachMm * 12, piece.reachMm * 12),
    new ShadowMaterial({ opacity: 0.28 }),
  );
  floor.rotation.x = -Math.PI / 2;
  floor.position.y = piece.floorMm;
  floor.receiveShadow = true;
  scene.add(floor);

  const camera = new PerspectiveCamera(26, 1, 1, piece.reachMm * 40);
  let turn = 0;
  let tilt = 0;
  let texture: Texture | null = null;
  let gone = false;

  const draw = () => {
    if (gone) return;
    piece.group.rotation.y = radians(turn);
    // Far enough that the piece fits the narrower side of the view.
    const half = radians(camera.fov / 2);
    const distance =
      (piece.reachMm * 1.12) / Math.sin(Math.min(half, Math.atan(Math.tan(half) * camera.aspect)));
    camera.position.set(0, Math.sin(radians(tilt)) * distance, Math.cos(radians(tilt)) * distance);
    camera.lookAt(new Vector3(0, 0, 0));
    renderer.render(scene, camera);
  };

  return {
    async setPicture(url) {
      const loaded = await new TextureLoader().loadAsync(url);
      if (gone) return loaded.dispose();
      loaded.colorSpace = SRGBColorSpace;
      loaded.anisotropy = Math.min(8, renderer.capabilities.getMaxAnisotropy());
      texture?.dispose();
      texture = loaded;
      piece.face.material.map = loaded;
      piece.face.material.needsUpdate = true;
      draw();
    },
    look(turnDegrees, tiltDegrees) {
      turn = turnDegrees;
      tilt = tiltDegrees;
      draw();
    },
    resize(width, height) {
      if (width < 1 || height < 1) return;
      camera.aspect = width / height;
      camera.updateProjectionMatrix();
      renderer.setSize(width, height, false);
      draw();
    },
    dispose() {
      gone = true;
      texture?.dispose();
      scene.traverse((thing) => {
        if (thing instanceof Mesh) {
          thing.geometry.dispose();
          for (const material of [thing.material].flat()) material.dispose();
        }
      });
      renderer.dispose();
    },
  };
}

/**
 * White light only, so that no hue is added. In three's units a surface that faces irradiance π shows its own
 * colour; sky and lamp together come near that on the side turned to the viewer.
 */
function lightUp(scene: Scene, reachMm: number) {
  scene.add(new HemisphereLight(new Color(1, 1, 1), new Color(0.72, 0.72, 0.72), 2.3));
  const lamp = new DirectionalLight(0xffffff, 1.35);
  lamp.position.set(-1.1, 2.2, 2).multiplyScalar(reachMm * 2);
  lamp.castShadow = true;
  lamp.shadow.mapSize.set(1024, 1024);
  lamp.shadow.radius = 6;
  const box = lamp.shadow.camera;
  box.left = box.bottom = -reachMm * 2;
  box.right = box.top = reachMm * 2;
  box.near = 1;
  box.far = reachMm * 12;
  lamp.shadow.bias = -0.002;
  lamp.shadow.normalBias = reachMm * 0.01;
  scene.add(lamp);
}
