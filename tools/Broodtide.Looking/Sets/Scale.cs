using Broodtide.Science.Imaging.Lengths;

namespace Broodtide.Looking.Sets;

/// <summary>Real pictures of a ruler under the microscope with the scale that their author measured.</summary>
public static class Scale
{
    public const string Folder = "scale_stage_micrometer";

    public static void Print(string folder)
    {
        Board.Write($"\n{Folder} (real)");
        Board.Write("picture     published um/px    5 %      50 %     95 %    error  ticks");
        var truth = Table.Read(Path.Combine(folder, "truth.csv"));
        foreach (var row in truth.Rows)
        {
            var file = truth.Text(row, "file");
            var (published, tick) = (truth.Number(row, "um_per_px_published"), truth.Number(row, "tick_um"));
            var (grey, shape) = Pictures.Grey(Path.Combine(folder, file));
            var found = RulerScale.Find(grey, shape, tick);
            Board.Write(
                found.Succeeded
                    ? $"{file, -18} {published, 8:0.0000} {Numbers(found.Value)} "
                        + $"{(found.Value.MicrometresPerPixel.Middle / published) - 1, 8:+0.000 %;-0.000 %} "
                        + $"{found.Value.Ticks, 5}  {string.Join("; ", found.Value.Remarks)}"
                    : $"{file, -18} {published, 8:0.0000} refused: {found.Reason}"
            );
        }
    }

    private static string Numbers(ScaleFound found) =>
        $"{found.MicrometresPerPixel.Low, 8:0.0000} {found.MicrometresPerPixel.Middle, 8:0.0000} "
        + $"{found.MicrometresPerPixel.High, 8:0.0000}";
}
