using System.Reflection;
using PublicApiGenerator;

namespace Broodtide.Architecture.Tests;

/// <summary>
/// What the pure assemblies offer to others, against the golden files beside this test. A change that is meant is
/// accepted by running the tests once with the environment variable BROODTIDE_ACCEPT=1; a server never writes.
/// </summary>
public sealed class PublicApiTests
{
    // New each time: giving a list of types writes it into the options.
    private static ApiGeneratorOptions Form =>
        new()
        {
            IncludeAssemblyAttributes = false,
            TreatRecordsAsClasses = false,
            DenyNamespacePrefixes = [],
        };

    public static TheoryData<string> PureAssemblies =>
        ["Broodtide.Units", "Broodtide.Science", "Broodtide.Domain"];

    [Theory]
    [MemberData(nameof(PureAssemblies))]
    public void What_a_pure_assembly_offers_is_what_was_accepted(string assembly)
    {
        var found = Offered(assembly);
        var golden = Golden(assembly);
        if (MayWrite(Environment.GetEnvironmentVariable))
        {
            File.WriteAllText(golden, found);
        }

        Assert.True(File.Exists(golden), $"{golden} is missing; BROODTIDE_ACCEPT=1 writes it.");
        Assert.Equal(File.ReadAllText(golden), found);
    }

    [Theory]
    [MemberData(nameof(PureAssemblies))]
    public void Every_public_type_is_named_in_what_an_assembly_offers(string assembly)
    {
        var found = Offered(assembly);
        Assert.All(
            Assembly.Load(assembly).GetExportedTypes(),
            type => Assert.Contains(type.Name.Split('`')[0], found, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_type_less_is_another_text()
    {
        var units = Assembly.Load("Broodtide.Units");
        Assert.NotEqual(
            Offered("Broodtide.Units"),
            units.GetExportedTypes().Where(type => type.Name != "Salinity").ToArray().GeneratePublicApi(Form)
        );
    }

    [Theory]
    [InlineData(null, null, false)]
    [InlineData("1", null, true)]
    [InlineData("0", null, false)]
    [InlineData("1", "true", false)]
    public void A_golden_file_is_written_only_when_asked_and_never_on_a_server(
        string? accept,
        string? server,
        bool written
    ) => Assert.Equal(written, MayWrite(name => name == "CI" ? server : accept));

    private static bool MayWrite(Func<string, string?> environment) =>
        environment("BROODTIDE_ACCEPT") == "1" && string.IsNullOrEmpty(environment("CI"));

    private static string Offered(string assembly) =>
        Assembly.Load(assembly).GeneratePublicApi(Form).ReplaceLineEndings("\n").TrimEnd() + "\n";

    private static string Golden(string assembly) =>
        Path.Combine(
            RepositoryFiles.Root,
            "tests",
            "Broodtide.Architecture.Tests",
            "golden",
            assembly + ".txt"
        );
}
