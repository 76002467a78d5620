export { CheckTrend } from './check-trend.js';
export { type Axis, type ChartBand, type ChartLine, LineChart, type Stroke } from './line-chart.js';
export { apart, roundTicks } from './ticks.js';
