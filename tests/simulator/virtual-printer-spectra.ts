/**
 * An illuminant–observer for the simulator, deliberately made another way than the tables of craft/cgats:
 * Wyman, Sloan & Shirley's multi-lobe fits of the CIE 1931 observer (J. Computer Graphics Techniques 2(2), 2013,
 * table 1) and a black body of 5003 K (CIE D50 is near it), then scaled so that white is 96.42, 100, 82.49.
 */
const wavelengths = Array.from({ length: 71 }, (_, i) => 380 + 5 * i);

const lobe = (nm: number, height: number, peak: number, below: number, above: number): number =>
  height * Math.exp(-0.5 * ((nm - peak) * (nm < peak ? below : above)) ** 2);

const observer = (nm: number): [number, number, number] => [
  lobe(nm, 0.362, 442, 0.0624, 0.0374) +
    lobe(nm, 1.056, 599.8, 0.0264, 0.0323) +
    lobe(nm, -0.065, 501.1, 0.049, 0.0382),
  lobe(nm, 0.821, 568.8, 0.0213, 0.0247) + lobe(nm, 0.286, 530.9, 0.0613, 0.0322),
  lobe(nm, 1.217, 437, 0.0845, 0.0278) + lobe(nm, 0.681, 459, 0.0385, 0.0725),
];

const blackBody = (nm: number, kelvin: number): number =>
  1 / (nm ** 5 * (Math.exp(1.4388e7 / (nm * kelvin)) - 1));

const raw = wavelengths.map((nm) => observer(nm).map((v) => v * blackBody(nm, 5003)));
const white = [96.42, 100, 82.49];
const sums = [0, 1, 2].map((j) => raw.reduce((sum, row) => sum + row[j]!, 0));

export const daylightObserver = {
  wavelengths,
  weights: raw.map((row) => row.map((v, j) => (v * white[j]!) / sums[j]!) as [number, number, number]),
};
