using Broodtide.Cli.Door;
using Broodtide.Photos;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Units;

namespace Broodtide.Cli.Looking;

/// <summary>
/// Frames of a merge: each is opened once to see that it can be, and again when it is worked on, unless so few and small
/// ones were named that all fit in memory.
/// </summary>
internal sealed class FramesOpened(Said said, IReadOnlyList<string> paths, LookProgress progress)
{
    // Four frames of twelve megapixels; what is beyond is opened again, a fifth of a second each.
    private const long MostHeldBytes = 200_000_000;

    private readonly List<GridShape> _shapes = [];
    private readonly Dictionary<int, ReadOnlyMemory<byte>> _held = [];

    /// <summary>Opens each; false where one cannot be opened.</summary>
    public async Task<bool> LookAsync(CancellationToken cancellation)
    {
        var held = 0L;
        // What the shapes alone forbid needs no further frame.
        for (var at = 0; at < paths.Count && at < FocusMerge.MostFrames + 1; at++)
        {
            progress.Say($"Opening {at + 1} of {paths.Count}.");
            if (await PicturesRead.OpenAsync(said, paths[at], cancellation) is not { } picture)
            {
                return false;
            }

            _shapes.Add(picture.Shape);
            held += picture.Colours.Length;
            if (held <= MostHeldBytes)
            {
                _held[at] = picture.Colours;
            }
        }

        return true;
    }

    /// <summary>Merges them; ends where the call was broken off.</summary>
    public Parsed<Merged> Merge(CancellationToken cancellation)
    {
        Parsed<Merged>? answer = null;
        var last = "";
        foreach (var step in FocusMerge.Steps(new(_shapes, Colours)))
        {
            cancellation.ThrowIfCancellationRequested();
            var now = Said(step);
            if (now != last)
            {
                progress.Say(now);
                last = now;
            }

            answer = step.Answer;
        }

        return answer!;
    }

    private string Said(MergeStep step) =>
        step.Work switch
        {
            MergeWork.Laying when step.Frame >= 0 => $"Laying frame {step.Frame + 1} of {paths.Count}.",
            MergeWork.Laying => "Laying frames.",
            MergeWork.Choosing => "Choosing.",
            MergeWork.Merging => $"Merging frame {step.Frame + 1} of {paths.Count}.",
            _ => "Checking.",
        };

    private ReadOnlyMemory<byte> Colours(int frame)
    {
        if (_held.TryGetValue(frame, out var colours))
        {
            return colours;
        }

        var picture = PictureFile.Decode(File.ReadAllBytes(paths[frame]));
        return picture.Succeeded
            ? picture.Value.Colours
            : throw new IOException($"{paths[frame]} changed while it was read.");
    }
}
