using Broodtide.Photos;
using Broodtide.Science.Imaging.Merging;

namespace Broodtide.Looking.Sets;

/// <summary>Frames focused at different depths, merged; beside the truth where there is one, beside the frames elsewhere.</summary>
public static class Stacks
{
    public const string WithTruth = "focus_truth_SYNTHETIC";
    public const string Algae = "focus_algae";
    public const string Macro = "focus_macro";

    /// <summary>Stacks of truth.csv: a folder each, frames zN.jpg and the sharp picture.</summary>
    public static void PrintTruth(string folder)
    {
        Board.Write($"\n{WithTruth} (real pictures, invented blur), merged; 16 px at the edge left out");
        Board.Write("stack   frames   best frame dB   SSIM   merged dB   SSIM   sharpness of the best frame");
        var table = Table.Read(Path.Combine(folder, "truth.csv"));
        foreach (var row in table.Rows)
        {
            var stack = Path.Combine(folder, table.Text(row, "stack"));
            var frames = Frames(stack);
            var truth = Pictures.Read(Path.Combine(stack, table.Text(row, "truth_image")));
            if (Merge(frames) is not { } merged)
            {
                continue;
            }

            var best = frames.MaxBy(frame => Likeness.Decibels(frame, truth))!;
            var picture = new Picture(merged.Shape, merged.Colours);
            Board.Write(
                $"{table.Text(row, "stack"), -7} {frames.Count, 6} {Likeness.Decibels(best, truth), 15:0.0} "
                    + $"{Likeness.Structural(best, truth), 6:0.000} "
                    + $"{Likeness.Decibels(picture, truth), 12:0.00} {Likeness.Structural(picture, truth), 6:0.000} "
                    + $"{merged.Sharpness / merged.Frames[merged.Sharpest].Sharpness, 10:0.00} times  {Said(merged)}"
            );
        }
    }

    /// <summary>A folder of frames zN.jpg without a truth.</summary>
    public static void PrintReal(string folder)
    {
        var name = Path.GetFileName(folder);
        var frames = Frames(folder);
        Board.Write(
            $"\n{name} (real), {frames.Count} frames merged, no truth: blocks of 64 px beside the frames"
        );
        if (Merge(frames) is not { } merged)
        {
            return;
        }

        Board.Write(
            $"{(merged.IsMerged ? "merged" : "best frame returned")}, sharpness "
                + $"{merged.Sharpness / merged.Frames[merged.Sharpest].Sharpness:0.00} times that of the best frame  {Said(merged)}"
        );
        foreach (var line in BlocksBeside.Lines(frames, merged))
        {
            Board.Write(line);
        }
    }

    private static List<Picture> Frames(string folder) =>
        [
            .. Directory
                .EnumerateFiles(folder, "z*.jpg")
                .OrderBy(file => file.Length)
                .ThenBy(file => file, StringComparer.Ordinal)
                .Select(Pictures.Read),
        ];

    private static Merged? Merge(List<Picture> frames)
    {
        var merged = FocusMerge.Of(
            new([.. frames.Select(frame => frame.Shape)], frame => frames[frame].Colours)
        );
        if (!merged.Succeeded)
        {
            Board.Write($"refused: {merged.Reason}");
        }

        return merged.Succeeded ? merged.Value : null;
    }

    private static string Said(Merged merged) => string.Join("; ", merged.Remarks);
}
