using Broodtide.Benchmarks;
using Broodtide.LookingPace;
using OpenCvSharp;

// broodtide-looking-pace [ACROSS DOWN [TURNS]]     each kernel beside the library's, on one thread each
// broodtide-looking-pace chains [TURNS]            whole counts and merges beside the same steps of the library
// broodtide-looking-pace fusion BROODTIDE [TURNS]  a merge from files to a file beside enfuse; our command line's assembly is named
Console.WriteLine(Machine.Describe());
if (args is ["chains", .. var often])
{
    Console.WriteLine(
        $"OpenCV {Cv2.GetVersionString()}, two threads each, in ms; ratio above 1: ours is faster"
    );
    var chainTurns = often is [var n] ? int.Parse(n) : 5;
    BurstChain.Run(chainTurns);
    MergeChain.Run(Math.Max(1, chainTurns / 2));
    return 0;
}

if (args is ["fusion", var ours, .. var many])
{
    Console.WriteLine("files to a file, in ms; ratio above 1: ours is faster");
    FusionDuel.Run(ours, many is [var some] ? int.Parse(some) : 5);
    return 0;
}

var (across, down, turns) = args switch
{
    [var a, var d, var t] => (int.Parse(a), int.Parse(d), int.Parse(t)),
    [var a, var d] => (int.Parse(a), int.Parse(d), 7),
    _ => (4000, 3000, 7),
};
Console.WriteLine(
    $"OpenCV {Cv2.GetVersionString()}, one thread each, {across} x {down}, median of {turns} turns in ms; ratio above 1: ours is faster"
);
Console.WriteLine(
    string.Join(
        '\n',
        Cv2.GetBuildInformation()
            .Split('\n')
            .Where(line =>
                line.Contains("Baseline:", StringComparison.Ordinal)
                || line.Contains("requested:", StringComparison.Ordinal)
                || line.Contains("Intel IPP:", StringComparison.Ordinal)
                || line.Contains("C++ flags (Release)", StringComparison.Ordinal)
            )
            .Select(line => line.Trim())
    )
);
Console.WriteLine($"{"kernel (their calls)", -44} {"ours", 9} {"theirs", 9} {"ratio", 7}");
using var kernels = new Kernels(new(across, down), turns);
kernels.Run();
return 0;
