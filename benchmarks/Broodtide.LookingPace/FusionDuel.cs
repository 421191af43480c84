using System.Diagnostics;
using System.Globalization;
using OpenCvSharp;

namespace Broodtide.LookingPace;

/// <summary>
/// Nine frames of twelve megapixels merged from files to a file: our command line, its start with it, and enfuse (Debian's package
/// of that name) set to choose by contrast alone, by turns. It lays no frame upon another, so these lie upon each other already; ours does
/// not know that and looks for it all the same. The error is against the picture that the frames were blurred from.
/// </summary>
internal static class FusionDuel
{
    public static void Run(string ourCommandLine, int turns)
    {
        var folder = Directory.CreateTempSubdirectory("fusion-");
        try
        {
            using var sharp = MergeChain.Sharp();
            var frames = MergeChain.WriteFrames(sharp, folder.CreateSubdirectory("frames").FullName);
            var (ours, theirs) = (
                Path.Combine(folder.FullName, "ours.png"),
                Path.Combine(folder.FullName, "theirs.png")
            );
            List<string> look =
            [
                ourCommandLine,
                "look",
                "merge",
                Path.GetDirectoryName(frames[0])!,
                "--to",
                ours,
                "--replace",
            ];
            List<string> fuse =
            [
                "--exposure-weight=0",
                "--saturation-weight=0",
                "--contrast-weight=1",
                "--hard-mask",
                $"--output={theirs}",
                .. frames,
            ];
            Pairs.Print(
                "merge of 9 x 12 MP, files to file (enfuse)",
                turns,
                () => Called("dotnet", look),
                () => Called("enfuse", fuse)
            );
            using var given = Cv2.ImRead(ours);
            using var fused = Cv2.ImRead(theirs);
            using var truth = new Mat();
            Cv2.CvtColor(sharp, truth, ColorConversionCodes.RGBA2BGR);
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  against the sharp picture, 64 px border left out: ours {MergeChain.Psnr(given, truth):F1} dB, theirs {MergeChain.Psnr(fused, truth):F1} dB"
                )
            );
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static void Called(string program, IEnumerable<string> with)
    {
        using var process = Process.Start(
            new ProcessStartInfo(program, with)
            {
                RedirectStandardOutput = true,
                UseShellExecute = false,
                RedirectStandardError = true,
            }
        )!;
        var (told, wrong) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException(
                $"{program} ended with {process.ExitCode}: {told.Result} {wrong.Result}"
            );
        }
    }
}
