import { lazy } from 'react';

/** Loaded only when a piece is shown: three.js is the largest part of the page. */
export const PieceView = lazy(() => import('./piece-view.js'));
