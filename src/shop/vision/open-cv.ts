import { createRequire } from 'node:module';

/** The few parts of OpenCV used here; its package has no types for markers. Free what you make with `delete`. */
export interface Mat {
  readonly rows: number;
  readonly cols: number;
  readonly data: Uint8Array;
  readonly data32S: Int32Array;
  readonly data32F: Float32Array;
  delete(): void;
}
interface MatVector {
  size(): number;
  get(index: number): Mat;
  delete(): void;
}
interface MarkerDetector {
  detectMarkers(picture: Mat, corners: MatVector, ids: Mat, rejected: MatVector): void;
  delete(): void;
}
interface CodeDetector {
  detectAndDecode(picture: Mat, points: Mat): string;
  delete(): void;
}
/** cv::aruco::Dictionary. */
export interface MarkerDictionary {
  readonly maxCorrectionBits: number;
  readonly bytesList: Mat;
  generateImageMarker(id: number, sidePixels: number, into: Mat, rimCells: number): void;
  delete(): void;
}
/** Named as in OpenCV's cv::aruco::DetectorParameters. */
interface DetectorParameters {
  adaptiveThreshWinSizeMin: number;
  adaptiveThreshWinSizeMax: number;
  adaptiveThreshWinSizeStep: number;
  minMarkerPerimeterRate: number;
  polygonalApproxAccuracyRate: number;
  minDistanceToBorder: number;
  perspectiveRemovePixelPerCell: number;
  delete(): void;
}

export interface OpenCv {
  Mat: new (rows?: number, cols?: number, type?: number) => Mat;
  MatVector: new () => MatVector;
  aruco_ArucoDetector: new (dictionary: unknown, parameters: unknown, refine: unknown) => MarkerDetector;
  aruco_DetectorParameters: new () => DetectorParameters;
  aruco_RefineParameters: new (
    distance: number,
    correction: number,
    allOrders: boolean,
  ) => { delete(): void };
  QRCodeDetector: new () => CodeDetector;
  getPredefinedDictionary(name: number): MarkerDictionary;
  aruco_Dictionary: new (bytesList: Mat, markerSize: number, maxCorrectionBits: number) => MarkerDictionary;
  readonly DICT_4X4_50: number;
  readonly CV_8UC1: number;
  readonly CV_8UC4: number;
  onRuntimeInitialized?: () => void;
}

let loading: Promise<{ readonly cv: OpenCv }> | null = null;

/**
 * Load OpenCV, once a thread. Wrapped in an object because the module has a `then` of its own that never ends
 * when awaited.
 */
export function loadOpenCv(): Promise<{ readonly cv: OpenCv }> {
  loading ??= new Promise((resolve) => {
    const cv = createRequire(import.meta.url)('@techstark/opencv-js') as OpenCv;
    if (typeof cv.Mat === 'function') resolve({ cv });
    else cv.onRuntimeInitialized = () => resolve({ cv });
  });
  return loading;
}
