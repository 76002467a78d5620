export { type OpenShopOptions, openShop, type Shop } from './open-shop.js';
export { programVersion } from './version.js';
