import { MeshLambertMaterial } from 'three';
import type { Blank } from '#contract';

/** What the thing itself looks like where nothing is printed. Greys and browns that do not compete. */
export const bodyColours: Record<Blank['material'], string> = {
  ceramic: '#f4f2ee',
  glass: '#dfe5e4',
  slate: '#4a4b4c',
  metal: '#d3d4d4',
  'wood-board': '#b59a76',
  plastic: '#ecebe8',
  textile: '#f3f1ec',
  other: '#e3e0da',
};

/** The print has no shine of its own here: a highlight would lift dark colours and say something untrue about them. */
export const printMaterial = (): MeshLambertMaterial => new MeshLambertMaterial({ color: 0xffffff });
