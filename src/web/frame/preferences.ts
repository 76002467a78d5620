import type { ShopPreferences } from '#contract';
import { useShop } from '../api/index.js';

const usual: ShopPreferences = { temperatureUnit: 'C', lengthUnit: 'mm', theme: 'auto' };

/** Units and light as kept in the shop; the usual ones until it has answered. */
export const usePreferences = (): ShopPreferences => useShop().data?.preferences ?? usual;
