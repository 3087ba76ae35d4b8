#include "viz/draw/window.h"

#include <vtkCellData.h>
#include <vtkCellPicker.h>
#include <vtkDataArray.h>
#include <vtkInteractorStyleTrackballCamera.h>
#include <vtkNew.h>
#include <vtkObjectFactory.h>
#include <vtkPointData.h>
#include <vtkRenderWindow.h>
#include <vtkRenderWindowInteractor.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>

namespace tubewright {

namespace {

constexpr int window_width = 1280, window_height = 800;
constexpr int click_reach = 3;  ///< pixels: what moves further is a drag

constexpr const char* key_help =
    "left/right: case    c: colour    up/down: deflection    0: none    f: front view    click a "
    "tube: its numbers    q: close";

/// The next larger of 1, 2 or 5 times a power of ten.
double next_larger(double warp) {
  if (!(warp > 0)) return 1;
  const double decade = std::pow(10.0, std::floor(std::log10(warp * (1 + 1e-9))));
  for (const double factor : {2.0, 5.0, 10.0})
    if (factor * decade > warp * (1 + 1e-9)) return factor * decade;
  return 10 * decade;
}

double next_smaller(double warp) {
  if (!(warp > 0)) return 0;
  const double decade = std::pow(10.0, std::floor(std::log10(warp * (1 - 1e-9))));
  for (const double factor : {5.0, 2.0, 1.0})
    if (factor * decade < warp * (1 - 1e-9)) return factor * decade;
  return decade;
}

/// Turns with the mouse like VTK's own style; keys and clicks are ours.
class Hands : public vtkInteractorStyleTrackballCamera {
 public:
  static Hands* New();
  vtkTypeMacro(Hands, vtkInteractorStyleTrackballCamera)

      void serve(Scene& scene, const View& first) {
    scene_ = &scene;
    view_ = first;
    show();
  }

  void OnChar() override {}  // VTK's own single-letter commands

  void OnKeyPress() override {
    const std::string key = this->Interactor->GetKeySym() ? this->Interactor->GetKeySym() : "";
    const std::size_t cases = scene_->cases().size();
    if (key == "q" || key == "Escape") return this->Interactor->TerminateApp();
    if (key == "Right" || key == "n") {
      view_.number = (view_.number + 1) % cases;
    } else if (key == "Left" || key == "p") {
      view_.number = (view_.number + cases - 1) % cases;
    } else if (key == "c") {
      view_.quantity = (view_.quantity + 1) % quantities.size();
    } else if (key == "Up") {
      view_.warp = next_larger(view_.warp);
    } else if (key == "Down") {
      view_.warp = next_smaller(view_.warp);
    } else if (key == "0") {
      view_.warp = view_.warp == 0 ? scene_->cases()[view_.number].warp_scale : 0;
    } else if (key == "f") {
      scene_->look_from_front_left();
    } else {
      return;
    }
    show();
  }

  void OnLeftButtonDown() override {
    this->Interactor->GetEventPosition(pressed_);
    Superclass::OnLeftButtonDown();
  }

  void OnLeftButtonUp() override {
    Superclass::OnLeftButtonUp();
    int released[2];
    this->Interactor->GetEventPosition(released);
    const int moved = std::abs(released[0] - pressed_[0]) + std::abs(released[1] - pressed_[1]);
    if (moved <= click_reach) pick(released[0], released[1]);
  }

 private:
  void show() {
    scene_->show(view_);
    scene_->say(key_help);
    this->Interactor->Render();
  }

  void pick(int x, int y) {
    vtkNew<vtkCellPicker> picker;
    picker->PickFromListOn();
    picker->AddPickList(&scene_->skin());
    picker->SetTolerance(0.002);
    const bool hit = picker->Pick(x, y, 0, &scene_->frame_renderer()) != 0;
    scene_->say(hit ? scene_->numbers_at(view_.number, picker->GetCellId(), picker->GetPointId())
                    : key_help);
    this->Interactor->Render();
  }

  Scene* scene_ = nullptr;
  View view_;
  int pressed_[2] = {0, 0};
};

vtkStandardNewMacro(Hands);

}  // namespace

void open_window(std::vector<DrawnCase> cases, View first) {
  vtkNew<vtkRenderWindow> window;  // outlives the scene
  window->SetMultiSamples(4);
  Scene scene(std::move(cases));
  window->SetWindowName(("tubewright: " + scene.cases()[first.number].frame).c_str());
  scene.place_in(*window, window_width, window_height);
  vtkNew<vtkRenderWindowInteractor> interactor;
  interactor->SetRenderWindow(window);
  vtkNew<Hands> hands;
  interactor->SetInteractorStyle(hands);
  hands->SetDefaultRenderer(&scene.frame_renderer());
  interactor->Initialize();
  hands->serve(scene, first);
  interactor->Start();
}

}  // namespace tubewright
