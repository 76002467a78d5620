import { type ShopPreferences, shopPreferencesSchema } from '#contract';
import type { Records } from '#shop/store';
import { checked } from '#shop/validate';

export class Preferences {
  constructor(private readonly records: Records) {}

  async get(): Promise<ShopPreferences> {
    return shopPreferencesSchema.parse((await this.records.settings.get('preferences')) ?? {});
  }

  /** Errors: request.invalid. */
  async save(value: unknown): Promise<ShopPreferences> {
    const preferences = checked(shopPreferencesSchema, value, 'The preferences cannot be kept');
    await this.records.settings.put('preferences', preferences);
    return preferences;
  }
}
