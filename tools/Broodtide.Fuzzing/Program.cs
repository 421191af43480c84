using Broodtide.Fuzzing;
using SharpFuzz;

// fuzz NAME          one reader under the fuzzer, which talks to it
// seeds FOLDER       the first inputs of each reader, one folder each
// replay FOLDER      reads every file below; its folder names the reader
const int Faulty = 1;
const int NotUnderstood = 2;
switch (args)
{
    case ["fuzz", var name]:
        var read = Readers.Find(name);
        Fuzzer.Run(stream =>
        {
            using var bytes = new MemoryStream();
            stream.CopyTo(bytes);
            read(bytes.ToArray());
        });
        return 0;
    case ["seeds", var folder, var repository]:
        Seeds.Write(folder, repository);
        return 0;
    case ["replay", var folder]:
        var faults = 0;
        foreach (
            var file in Directory
                .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
                .Where(file => Path.GetFileName(file)[0] != '.')
                .Order()
        )
        {
            try
            {
                Readers.Find(Path.GetFileName(Path.GetDirectoryName(file))!)(File.ReadAllBytes(file));
            }
            catch (Exception fault)
            {
                Console.WriteLine($"{file}: {fault}");
                faults++;
            }
        }

        return faults == 0 ? 0 : Faulty;
    default:
        Console.Error.WriteLine(
            "usage: Broodtide.Fuzzing fuzz NAME | seeds FOLDER REPOSITORY | replay FOLDER"
        );
        return NotUnderstood;
}
