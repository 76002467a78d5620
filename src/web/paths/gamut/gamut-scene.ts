import {
  BufferGeometry,
  CanvasTexture,
  Color,
  DoubleSide,
  Float32BufferAttribute,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  PerspectiveCamera,
  Scene,
  Sprite,
  SpriteMaterial,
  SRGBColorSpace,
  Vector3,
  WebGLRenderer,
} from 'three';
import { type Cut, cutAtHue, cutAtLightness, type Surface } from './mesh.js';

export interface GamutScene {
  /** Turn about the lightness axis and height of the eye, degrees. */
  look(turnDegrees: number, tiltDegrees: number): void;
  resize(widthPixels: number, heightPixels: number): void;
  /** Whether the wire of sRGB is drawn. */
  compare(on: boolean): void;
  dispose(): void;
}

const radians = (degrees: number) => (degrees * Math.PI) / 180;
/** Lightness stands up from 0 to 100, its middle in the middle of the view; a* to the right, b* to the back. */
const placed = (l: number, a: number, b: number): [number, number, number] => [a, l - 50, -b];
const ringLightness = [10, 20, 30, 40, 50, 60, 70, 80, 90];
const wireLightness = [20, 40, 60, 80];
/** Through sRGB's corners: red and cyan, yellow, green, blue, magenta; each plane cuts the hue opposite too. */
const meridians = [41, 100, 134, 121, 147];

/**
 * The reachable colours as a body in CIELAB, each corner in its own colour, unlit so that no lamp changes it; sRGB round
 * it as a wire. Draws on demand, never in a loop. Throws where WebGL is not to be had.
 */
export function createGamutScene(canvas: HTMLCanvasElement, body: Surface, screen: Surface): GamutScene {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true, powerPreference: 'low-power' });
  renderer.outputColorSpace = SRGBColorSpace;
  renderer.setPixelRatio(Math.min(globalThis.devicePixelRatio || 1, 2));
  const scene = new Scene();
  const turning = new Group();
  scene.add(turning);

  turning.add(bodyMesh(body));
  // Without a lamp a body looks flat; rings of equal lightness show how it runs.
  const rings = lines(
    ringLightness.flatMap((l) => cutAtLightness(body, l)),
    '#000000',
    0.22,
  );
  rings.scale.setScalar(1.002);
  turning.add(rings);
  const wire = new Group();
  wire.add(
    lines(
      wireLightness.flatMap((l) => cutAtLightness(screen, l)),
      '#ffffff',
      0.55,
    ),
    lines(
      meridians.flatMap((hue) => cutAtHue(screen, hue)),
      '#ffffff',
      0.34,
    ),
  );
  turning.add(wire);
  turning.add(axes());
  const names: Sprite[] = [
    sign('light', placed(112, 0, 0)),
    sign('dark', placed(-9, 0, 0)),
    sign('red', placed(0, 104, 0)),
    sign('green', placed(0, -104, 0)),
    sign('yellow', placed(0, 0, 104)),
    sign('blue', placed(0, 0, -112)),
  ];
  turning.add(...names);

  const camera = new PerspectiveCamera(24, 1, 10, 3000);
  let turn = 0;
  let tilt = 0;
  let gone = false;
  const draw = () => {
    if (gone) return;
    turning.rotation.y = radians(turn);
    // Near enough to fill the view, far enough for the floor's rings on either side and the words above and below.
    const slope = Math.tan(radians(camera.fov / 2));
    const tall = 64 * Math.abs(Math.cos(radians(tilt))) + 108 * Math.abs(Math.sin(radians(tilt)));
    const distance = Math.max(tall / slope, 116 / (slope * camera.aspect)) + 40;
    camera.position.set(0, Math.sin(radians(tilt)) * distance, Math.cos(radians(tilt)) * distance);
    camera.up.set(0, 1, 0);
    camera.lookAt(new Vector3(0, 0, 0));
    renderer.render(scene, camera);
  };
  return {
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
    compare(on) {
      wire.visible = on;
      draw();
    },
    dispose() {
      gone = true;
      scene.traverse((thing) => {
        if (thing instanceof Mesh || thing instanceof LineSegments) {
          thing.geometry.dispose();
          for (const material of [thing.material].flat()) material.dispose();
        }
        if (thing instanceof Sprite) {
          thing.material.map?.dispose();
          thing.material.dispose();
        }
      });
      renderer.dispose();
    },
  };
}

function bodyMesh({ lab, srgb, triangles }: Surface): Mesh {
  const places = new Float32Array(lab.length);
  const colours = new Float32Array(lab.length);
  const colour = new Color();
  for (let i = 0; i < lab.length; i += 3) {
    places.set(placed(lab[i] ?? 0, lab[i + 1] ?? 0, lab[i + 2] ?? 0), i);
    colour.setRGB((srgb[i] ?? 0) / 255, (srgb[i + 1] ?? 0) / 255, (srgb[i + 2] ?? 0) / 255, SRGBColorSpace);
    colours.set([colour.r, colour.g, colour.b], i);
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new Float32BufferAttribute(places, 3));
  geometry.setAttribute('color', new Float32BufferAttribute(colours, 3));
  geometry.setIndex([...triangles]);
  // Both sides: a printer with folds has triangles that face inward.
  return new Mesh(
    geometry,
    new MeshBasicMaterial({
      vertexColors: true,
      side: DoubleSide,
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    }),
  );
}

function lines(cuts: readonly Cut[], colour: string, opacity: number): LineSegments {
  const geometry = new BufferGeometry();
  const places = cuts.flatMap(([l1, a1, b1, l2, a2, b2]) => [...placed(l1, a1, b1), ...placed(l2, a2, b2)]);
  geometry.setAttribute('position', new Float32BufferAttribute(places, 3));
  return new LineSegments(
    geometry,
    new LineBasicMaterial({ color: new Color(colour), transparent: true, opacity, depthWrite: false }),
  );
}

/** The neutral axis, and on the floor (black) the two hue axes and rings of chroma 50 and 100. */
function axes(): LineSegments {
  const cuts: Cut[] = [
    [0, 0, 0, 106, 0, 0],
    [0, -96, 0, 0, 96, 0],
    [0, 0, -96, 0, 0, 96],
  ];
  for (const chroma of [50, 96]) {
    for (let i = 0; i < 96; i += 1) {
      const [from, to] = [radians(i * 3.75), radians((i + 1) * 3.75)];
      cuts.push([
        0,
        chroma * Math.cos(from),
        chroma * Math.sin(from),
        0,
        chroma * Math.cos(to),
        chroma * Math.sin(to),
      ]);
    }
  }
  return lines(cuts, '#1c1c1c', 0.45);
}

/** A word that always faces the viewer. */
function sign(word: string, at: [number, number, number]): Sprite {
  const canvas = document.createElement('canvas');
  canvas.width = 256;
  canvas.height = 64;
  const context = canvas.getContext('2d');
  if (context) {
    context.font = "600 40px 'Source Sans 3 Variable', system-ui, sans-serif";
    context.textAlign = 'center';
    context.textBaseline = 'middle';
    context.fillStyle = '#fff';
    context.strokeStyle = 'rgb(0 0 0 / 65%)';
    context.lineWidth = 7;
    context.lineJoin = 'round';
    context.strokeText(word, 128, 32);
    context.fillText(word, 128, 32);
  }
  const map = new CanvasTexture(canvas);
  map.colorSpace = SRGBColorSpace;
  const sprite = new Sprite(new SpriteMaterial({ map, transparent: true, depthWrite: false }));
  sprite.position.set(...at);
  sprite.scale.set(44, 11, 1);
  return sprite;
}
