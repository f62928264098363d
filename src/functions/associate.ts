import * as functions from "./index";
import { register } from "./register";

register(functions);
