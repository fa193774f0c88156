/** What the build fills in. */
interface ImportMetaEnv {
  /** Of the package. */
  readonly RATEDRUN_VERSION: string;
}
