import { embeddedEngine } from "../engine/embedded.ts";
import { Workspace } from "./workspace.ts";

void new Workspace(document.body, embeddedEngine(), embeddedEngine()).start();
