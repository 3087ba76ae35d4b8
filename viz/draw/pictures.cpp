#include "viz/draw/pictures.h"

#include <vtkNew.h>
#include <vtkPNGWriter.h>
#include <vtkRenderWindow.h>
#include <vtkUnsignedCharArray.h>
#include <vtkWindowToImageFilter.h>

#include <stdexcept>
#include <string_view>

#include "io/text/write_file_atomically.h"
#include "viz/draw/scene.h"

namespace tubewright {

namespace {

constexpr int picture_width = 1280, picture_height = 800;

constexpr const char* small_print =
    "Grey lines: the frame without load. Linear beam theory; says nothing of a crash, of weld "
    "quality or of fatigue.";

vtkSmartPointer<vtkUnsignedCharArray> png_of(vtkRenderWindow& window) {
  vtkNew<vtkWindowToImageFilter> image;
  image->SetInput(&window);
  image->SetInputBufferTypeToRGB();
  image->ReadFrontBufferOff();
  vtkNew<vtkPNGWriter> writer;
  writer->SetInputConnection(image->GetOutputPort());
  writer->SetCompressionLevel(3);  // nearly as small as with 9, in half the time
  writer->WriteToMemoryOn();
  writer->Write();
  return writer->GetResult();
}

}  // namespace

void write_pictures(const std::vector<DrawnCase>& cases, const std::filesystem::path& directory) {
  if (cases.empty()) return;
  vtkNew<vtkRenderWindow> window;  // outlives the scene
  window->SetOffScreenRendering(1);
  window->SetMultiSamples(4);
  Scene scene(cases);
  scene.place_in(*window, picture_width, picture_height);
  scene.say(small_print);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    scene.show({i, 0, cases[i].warp_scale});
    window->Render();
    const auto png = png_of(*window);
    const auto path = directory / (cases[i].stem + ".png");
    if (png == nullptr || png->GetNumberOfValues() == 0)
      throw std::runtime_error("cannot draw " + path.string());
    const std::string_view bytes(reinterpret_cast<const char*>(png->GetPointer(0)),
                                 static_cast<std::size_t>(png->GetNumberOfValues()));
    if (const auto failure = write_file_atomically(path, bytes))
      throw std::runtime_error("cannot write " + path.string() + ": " + failure->reason);
  }
}

}  // namespace tubewright
