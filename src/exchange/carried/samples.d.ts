/** Made by the build (src/build/one-file.ts): the files of public/samples, by name. */
declare module "virtual:carried-samples" {
  export const SAMPLE_TEXTS: Readonly<Record<string, string | undefined>>;
}
