export { printed } from './printed.ts';
export { type Terminal, terminal } from './terminal.ts';
