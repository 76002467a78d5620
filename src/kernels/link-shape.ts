export type { DeviceLink, GridLink, IdentityLink, ShaperLink } from '#craft/icc';
