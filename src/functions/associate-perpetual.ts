import { register } from "./register";

// Without RESULTCARD: an Excel that was bought once takes no number with properties.
register();
