// One load case as a picture: the deformed tubes painted, the undeformed lines, the sheets, what
// is bolted or welded to the tubes, a legend with units, the worst place marked, and which way is
// forward.
#pragma once

#include <vtkActor.h>
#include <vtkBillboardTextActor3D.h>
#include <vtkDataSetMapper.h>
#include <vtkNew.h>
#include <vtkPointSet.h>
#include <vtkPolyDataMapper.h>
#include <vtkRenderWindow.h>
#include <vtkRenderer.h>
#include <vtkScalarBarActor.h>
#include <vtkTextActor.h>

#include <string>
#include <vector>

#include "viz/draw/load_set.h"
#include "viz/draw/paint.h"

namespace tubewright {

struct View {
  std::size_t number = 0;    ///< index of the case
  std::size_t quantity = 0;  ///< index in `quantities`
  double warp = 1;           ///< displacements are drawn this many times
};

/// Holds what is drawn; there is at least one case. Each case is painted from nothing to its own
/// worst place: on a scale for all, the mild cases would be dark all over.
class Scene {
 public:
  explicit Scene(std::vector<DrawnCase> cases);

  const std::vector<DrawnCase>& cases() const { return cases_; }

  /// Puts the scene into a window of this size; every case then fits, seen from the front left and
  /// above. The window has to outlive the scene.
  void place_in(vtkRenderWindow& window, int width, int height);

  void show(const View& view);

  /// A line of small print below the picture.
  void say(const std::string& words);

  /// The first view again, of a window of any size.
  void look_from_front_left();

  /// What holds at a point of the skin of a case, on the member of a cell: "sill_l: 82 MPa von
  /// Mises, 0.52 of the yield limit, ...".
  std::string numbers_at(std::size_t number, vtkIdType cell, vtkIdType point) const;

  vtkRenderer& frame_renderer() { return *frame_; }
  vtkActor& skin() { return *skin_; }

 private:
  void put_frame();
  void put_legend();
  void put_words();
  void put_mark();
  void set_font_sizes(int height);
  void mark(const WorstPlace& worst, const Quantity& quantity, vtkPointSet& deformed);

  std::vector<DrawnCase> cases_;
  vtkNew<vtkRenderer> frame_, labels_;  ///< labels are never hidden by tubes
  vtkNew<vtkRenderer> compass_;
  vtkNew<vtkDataSetMapper> skin_mapper_;
  vtkNew<vtkPolyDataMapper> line_mapper_, panel_mapper_, attachment_mapper_;
  vtkNew<vtkActor> skin_, lines_, panels_, attachments_;
  vtkNew<vtkScalarBarActor> legend_;
  vtkNew<vtkTextActor> title_, subtitle_, print_;
  vtkNew<vtkBillboardTextActor3D> worst_label_;
  vtkNew<vtkActor> worst_mark_;
};

/// "drawn x 20", "drawn to scale", "not drawn".
std::string warp_in_words(double warp);

}  // namespace tubewright
