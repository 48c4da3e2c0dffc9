// Python in WebAssembly as a command: pyodide.mjs MODULE -c CODE. It sees the environment's
// variables, the current folder and those that PYTHONPATH and FOLDERS name, parted by colons.
const [module, flag, code] = process.argv.slice(2);
if (flag !== "-c") throw new Error("only -c CODE is understood");
const { loadPyodide } = await import(module);
const python = await loadPyodide({ env: { ...process.env, HOME: "/" } });
const { PYTHONPATH = "", FOLDERS = "" } = process.env;
const folders = [process.cwd(), ...PYTHONPATH.split(":"), ...FOLDERS.split(":")];
for (const folder of new Set(folders.filter((each) => each))) {
  python.FS.mkdirTree(folder);
  python.FS.mount(python.FS.filesystems.NODEFS, { root: folder }, folder);
}
python.FS.chdir(process.cwd());
python.runPython("import sys; sys.path_importer_cache.clear()"); // the folders were not there yet
try {
  python.runPython(code);
} catch (error) {
  console.error(String(error));
  process.exit(1);
}
