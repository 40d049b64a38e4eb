import "@mantine/core/styles.css";
import "./look/look.css";
import { mount } from "./app/mount.tsx";

const root = document.getElementById("root");
if (root) mount(root);
