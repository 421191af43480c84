using System.Globalization;

namespace Broodtide.Scenes;

/// <summary>Writes scenes as a set with known truth: SCENE_fN.jpg, truth.csv, positions.csv.</summary>
public static class SceneFolder
{
    public static void Write(string folder, int seed, IEnumerable<int> indices, bool isLarge)
    {
        Directory.CreateDirectory(folder);
        using var truth = new StreamWriter(Path.Combine(folder, "truth.csv"));
        using var places = new StreamWriter(Path.Combine(folder, "positions.csv"));
        truth.WriteLine(
            "scene,frames,count,difficulty,px_per_mm,static_debris,bubbles,jpeg_quality,full_well_e"
        );
        places.WriteLine("scene,frame,larva,x_px,y_px,length_um");
        foreach (var index in indices)
        {
            var scene = new InventedScene(seed, index, isLarge: isLarge);
            var (facts, name, painter) = (scene.Facts, $"i{index:000}", new Painter(scene));
            var difficulty = facts.Difficulty switch
            {
                Difficulty.Easy => "easy",
                Difficulty.Medium => "medium",
                _ => "hard",
            };
            truth.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{name},{scene.Poses.Count},{facts.Number},{difficulty},{facts.PixelsPerMm:0.###},{facts.Debris},{facts.Bubbles},{facts.JpegQuality},{facts.FullWell:0}"
                )
            );
            for (var number = 0; number < scene.Poses.Count; number++)
            {
                var frame = painter.Frame(number);
                File.WriteAllBytes(
                    Path.Combine(folder, $"{name}_f{number + 1}.jpg"),
                    JpegFile.Encode(frame, facts.JpegQuality)
                );
                for (var larva = 0; larva < frame.Truth.Count; larva++)
                {
                    var (x, y, length) = frame.Truth[larva];
                    places.WriteLine(
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"{name},{number + 1},{larva + 1},{x:0.0},{y:0.0},{1000 * length / facts.PixelsPerMm:0}"
                        )
                    );
                }
            }
        }
    }
}
