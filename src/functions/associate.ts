import { resultCard } from "./index";
import { register } from "./register";

register({ resultCard });
