/** Made by the build (src/build/one-file.ts): the files of public/samples and public/lessons, by their paths. */
declare module "virtual:carried-texts" {
  export const CARRIED_TEXTS: Readonly<Record<string, string | undefined>>;
}
