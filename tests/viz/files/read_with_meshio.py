"""The surface of the tubes, read by a second, independent reader."""
import read_back
from read_back import Cantilever, ReadBack, path

meshio = read_back.need("meshio", "python3-meshio")
numpy = read_back.need("numpy", "python3-numpy")


class SkinInMeshio(ReadBack):
    def setUp(self):
        self.mesh = meshio.read(path("cantilever", "loads_01_tip-down.1_skin.vtu"))

    def test_it_is_quads_in_millimetres(self):
        self.assertEqual([block.type for block in self.mesh.cells], ["quad"])
        self.assertEqual(len(self.mesh.points), 9 * 8)
        self.assertEqual(len(self.mesh.cells[0].data), 8 * 8)
        self.assertEqual(self.mesh.points.max(axis=0).tolist(), [1000, 12.5, 12.5])

    def test_the_numbers_are_the_closed_forms(self):
        data = self.mesh.point_data
        self.assertRelative(data["stress_normal"].max(), Cantilever.root_stress(300))
        tip = self.mesh.points[:, 0] == 1000
        numpy.testing.assert_allclose(
            data["displacement"][tip][:, 2], -Cantilever.tip_deflection(300), rtol=1e-9
        )
        self.assertEqual(set(self.mesh.cell_data["member"][0]), {0})
        self.assertEqual(set(self.mesh.cell_data["section"][0]), {0})

    def test_the_case_name_is_legible(self):
        codes = numpy.asarray(self.mesh.field_data["case_name_utf8"], dtype=numpy.uint8)
        self.assertEqual(bytes(codes).decode(), "tip-down.1")

    def test_shapes_of_every_kind_are_read(self):
        mesh = meshio.read(path("mixed", "loads_01_down_skin.vtu"))
        self.assertEqual(len(numpy.unique(mesh.cell_data["member"][0])), 7)


if __name__ == "__main__":
    read_back.main()
