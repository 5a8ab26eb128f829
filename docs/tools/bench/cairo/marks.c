/* Draws the marks of a text file on so many pages of a PDF with cairo: cairo MARKS FILE PAGES.
   The file is read once, before the first page; the letters come from the same font files. */
#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <ft2build.h>
#include FT_FREETYPE_H

enum verb { MOVE, LINE, CURVE, CLOSE, CIRCLE, FILL, STROKE, TEXT };

struct mark {
	enum verb verb;
	double n[6], dash[8], rgb[3];
	int dashes, face;
	char *text;
};

static struct mark *marks;
static size_t count;
static double width, height;
static struct { int weight; cairo_font_face_t *face; } faces[8];
static int face_count;

static void fail(const char *what) {
	fprintf(stderr, "cairo: %s\n", what);
	exit(1);
}

static int face_of(int weight) {
	for (int i = 0; i < face_count; i++)
		if (faces[i].weight == weight) return i;
	fail("no such face");
	return 0;
}

static void add_face(FT_Library library, char *line) {
	FT_Face face;
	char path[1024];
	int weight;
	if (sscanf(line, "face %d %1023[^\n]", &weight, path) != 2 || FT_New_Face(library, path, 0, &face)) fail("bad face");
	faces[face_count].weight = weight;
	faces[face_count++].face = cairo_ft_font_face_create_for_ft_face(face, 0);
}

static void read_stroke(struct mark *m, char *line) {
	int at = 0, step = 0;
	if (sscanf(line, "stroke %lf %lf %lf %lf %d%n", &m->rgb[0], &m->rgb[1], &m->rgb[2], &m->n[0], &m->dashes, &at) != 5 || m->dashes > 8) fail("bad stroke");
	for (int i = 0; i < m->dashes; i++, at += step)
		if (sscanf(line + at, "%lf%n", &m->dash[i], &step) != 1) fail("bad dash");
	m->verb = STROKE;
}

static void read_text(struct mark *m, char *line) {
	int weight, at = 0;
	if (sscanf(line, "text %lf %lf %lf %d %lf %lf %lf%n", &m->rgb[0], &m->rgb[1], &m->rgb[2], &weight, &m->n[0], &m->n[1], &m->n[2], &at) != 7) fail("bad text");
	m->face = face_of(weight);
	m->text = strdup(line + at + 1);
	m->text[strcspn(m->text, "\n")] = 0;
	m->verb = TEXT;
}

static void read_mark(struct mark *m, char *line) {
	double *n = m->n;
	if (sscanf(line, "move %lf %lf", n, n + 1) == 2) m->verb = MOVE;
	else if (sscanf(line, "line %lf %lf", n, n + 1) == 2) m->verb = LINE;
	else if (sscanf(line, "curve %lf %lf %lf %lf %lf %lf", n, n + 1, n + 2, n + 3, n + 4, n + 5) == 6) m->verb = CURVE;
	else if (sscanf(line, "circle %lf %lf %lf", n, n + 1, n + 2) == 3) m->verb = CIRCLE;
	else if (sscanf(line, "fill %lf %lf %lf", &m->rgb[0], &m->rgb[1], &m->rgb[2]) == 3) m->verb = FILL;
	else if (!strncmp(line, "close", 5)) m->verb = CLOSE;
	else if (!strncmp(line, "stroke", 6)) read_stroke(m, line);
	else if (!strncmp(line, "text", 4)) read_text(m, line);
	else fail(line);
}

static void read_marks(const char *path) {
	FILE *in = fopen(path, "r");
	FT_Library library;
	char line[4096];
	size_t room = 0;
	if (!in || FT_Init_FreeType(&library)) fail("cannot start");
	while (fgets(line, sizeof line, in)) {
		if (sscanf(line, "page %lf %lf", &width, &height) == 2) continue;
		if (!strncmp(line, "face", 4)) { add_face(library, line); continue; }
		if (count == room) marks = realloc(marks, (room = 2 * room + 64) * sizeof *marks);
		memset(&marks[count], 0, sizeof *marks);
		read_mark(&marks[count++], line);
	}
	fclose(in);
}

static void draw(cairo_t *c, struct mark *m) {
	double *n = m->n;
	switch (m->verb) {
	case MOVE: cairo_move_to(c, n[0], n[1]); break;
	case LINE: cairo_line_to(c, n[0], n[1]); break;
	case CURVE: cairo_curve_to(c, n[0], n[1], n[2], n[3], n[4], n[5]); break;
	case CLOSE: cairo_close_path(c); break;
	case CIRCLE: cairo_new_sub_path(c); cairo_arc(c, n[0], n[1], n[2], 0, 2 * 3.14159265358979323846); cairo_close_path(c); break;
	case FILL: cairo_set_source_rgb(c, m->rgb[0], m->rgb[1], m->rgb[2]); cairo_fill(c); break;
	case STROKE:
		cairo_set_source_rgb(c, m->rgb[0], m->rgb[1], m->rgb[2]);
		cairo_set_line_width(c, n[0]);
		cairo_set_dash(c, m->dash, m->dashes, 0);
		cairo_stroke(c);
		break;
	case TEXT:
		cairo_set_source_rgb(c, m->rgb[0], m->rgb[1], m->rgb[2]);
		cairo_set_font_face(c, faces[m->face].face);
		cairo_set_font_size(c, n[0]);
		cairo_move_to(c, n[1], n[2]);
		cairo_show_text(c, m->text);
		cairo_new_path(c);
		break;
	}
}

/* say_peak prints the line in which Linux keeps this process's peak memory. */
static void say_peak(void) {
	char line[256];
	FILE *in = fopen("/proc/self/status", "r");
	while (in && fgets(line, sizeof line, in))
		if (!strncmp(line, "VmHWM:", 6)) fputs(line, stdout);
	if (in) fclose(in);
}

int main(int argc, char **argv) {
	if (argc != 4) fail("usage: cairo MARKS FILE PAGES");
	read_marks(argv[1]);
	const double mm = 72 / 25.4;
	cairo_surface_t *s = cairo_pdf_surface_create(argv[2], width * mm, height * mm);
	cairo_t *c = cairo_create(s);
	cairo_scale(c, mm, mm);
	cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
	cairo_set_fill_rule(c, CAIRO_FILL_RULE_EVEN_ODD);
	for (int page = atoi(argv[3]); page > 0; page--) {
		for (size_t i = 0; i < count; i++) draw(c, &marks[i]);
		cairo_show_page(c);
	}
	cairo_destroy(c);
	cairo_surface_finish(s);
	if (cairo_surface_status(s)) fail(cairo_status_to_string(cairo_surface_status(s)));
	cairo_surface_destroy(s);
	say_peak();
	return 0;
}
