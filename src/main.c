/* main.c - composition only: chooses between a command and the screen. */
int main(void) { return 0; }
