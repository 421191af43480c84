using System.Reflection;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;

namespace Broodtide.Domain.Tests;

public class KindTests
{
    private static readonly Type[] NotWritten =
    [
        typeof(UnknownFact),
        typeof(UnreadableFact),
        typeof(ErasedFact),
    ];

    private static IEnumerable<Type> FactTypes =>
        typeof(Fact).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(Fact)));

    [Fact]
    public void Every_fact_is_sealed_and_has_one_kind_and_one_sample()
    {
        var written = FactTypes.Except(NotWritten).OrderBy(type => type.Name).ToList();
        Assert.All(FactTypes, type => Assert.True(type.IsSealed, type.Name));
        Assert.Equal(written, Kinds.All.Select(kind => kind.Type).OrderBy(type => type.Name));
        Assert.Equal(written, Samples.All.Select(sample => sample.GetType()).OrderBy(type => type.Name));
        Assert.Equal(Kinds.All.Count, Kinds.All.Select(kind => kind.Name).Distinct().Count());
    }

    [Fact]
    public void A_sample_leaves_no_field_out() =>
        Assert.All(
            Samples.All,
            sample =>
            {
                var body = JsonNode.Parse(Kinds.Of(sample).Write(sample))!.AsObject();
                Assert.Equal(
                    sample.GetType().GetProperties().Select(Camel).Order(),
                    body.Select(member => member.Key).Order()
                );
            }
        );

    // What is none is not written, so it must not be asked for on reading.
    [Fact]
    public void Whatever_may_be_left_out_may_be_missing() =>
        Assert.All(
            typeof(Fact)
                .Assembly.GetTypes()
                .Where(type => type.IsSubclassOf(typeof(Fact)) || Inner.Contains(type))
                .SelectMany(type => type.GetConstructors().SelectMany(maker => maker.GetParameters())),
            parameter =>
            {
                var mayBeNone =
                    Nullable.GetUnderlyingType(parameter.ParameterType) is not null
                    || new NullabilityInfoContext().Create(parameter).ReadState == NullabilityState.Nullable;
                Assert.True(
                    parameter.HasDefaultValue || !mayBeNone,
                    $"{parameter.Member.DeclaringType!.Name}.{parameter.Name}"
                );
            }
        );

    private static IEnumerable<Type> Inner =>
        Kinds
            .All.SelectMany(kind => kind.Type.GetProperties())
            .Select(property => property.PropertyType)
            .Where(type => type.IsGenericType)
            .Select(type => type.GetGenericArguments()[0]);

    [Fact]
    public void A_fact_is_read_back_as_it_was_written() =>
        Assert.All(
            Samples.All,
            sample =>
            {
                var kind = Kinds.Of(sample);
                var body = kind.Write(sample);
                var read = Kinds.Read(kind.Name, kind.Version, body);
                Assert.IsType(sample.GetType(), read);
                Assert.Equal(Encoding.UTF8.GetString(body), Encoding.UTF8.GetString(kind.Write(read)));
                Assert.True(CanonicalJson.Is(body));
                Assert.Null(read.Impossible());
            }
        );

    // Every typed number, count, plain number and unit code that a fact holds is among those that are looked at.
    [Fact]
    public void Every_number_of_a_fact_is_looked_at() =>
        Assert.All(
            Samples.All,
            sample =>
            {
                var looked = sample
                    .Numbers()
                    .Select(number => number.Name)
                    .Concat(sample.Counts().Select(count => count.Name))
                    .Concat(sample.Plain().Select(plain => plain.Name))
                    .ToHashSet();
                Assert.Equal(NumbersIn(sample.GetType(), "").Order(), looked.Order());
            }
        );

    [Fact]
    public void A_fact_speaks_of_every_thing_it_names() =>
        Assert.All(
            Samples.All,
            sample =>
            {
                var named = sample
                    .GetType()
                    .GetProperties()
                    .SelectMany(property => Named(property.GetValue(sample)));
                var subjects = sample.Subjects().ToList();
                Assert.All(named, subject => Assert.Contains(subject, subjects));
                Assert.NotEmpty(subjects);
                Assert.True(named.Any() || subjects.SequenceEqual([Subject.House]), sample.ToString());
            }
        );

    [Fact]
    public void Facts_that_stand_for_missing_ones_are_not_written() =>
        Assert.All(
            new Fact[] { new UnknownFact("x", 1), new UnreadableFact("x", "y"), new ErasedFact("x") },
            fact => Assert.Throws<ArgumentException>(() => Kinds.Of(fact))
        );

    [Theory]
    [InlineData("vessel sung to", 1)]
    [InlineData("note written", 2)]
    [InlineData("Note written", 1)]
    public void A_kind_or_version_from_later_is_unknown_and_no_fault(string name, int version)
    {
        Assert.Equal(new UnknownFact(name, version), Kinds.Read(name, version, "{}"u8));
        Assert.False(Kinds.Knows(name, version));
    }

    [Fact]
    public void A_photo_written_in_its_first_shape_says_what_it_said()
    {
        var hash = new string('a', 64);
        Assert.Equal(
            new Keeping.PhotoAdded(hash, "image/png", 7, Caption: "eggs"),
            Kinds.Read(
                "photo added",
                1,
                Encoding.UTF8.GetBytes(
                    $$"""{"bytes":7,"caption":"eggs","mediaType":"image/png","sha256":"{{hash}}"}"""
                )
            )
        );
    }

    [Fact]
    public void A_member_from_later_is_passed_over() =>
        Assert.Equal(
            new Keeping.NoteWritten("x"),
            Kinds.Read("note written", 1, """{"text":"x","mood":{"of":["day"]}}"""u8)
        );

    // Whatever stands in a body in the place of what should: nothing is thrown, so no fold ever stops.
    [Fact]
    public void A_body_with_anything_in_it_is_read_or_told_to_be_unreadable()
    {
        string[] anything =
        [
            "null",
            "true",
            "\"\"",
            "\"x\"",
            "-1",
            "0.5",
            "1e308",
            "1e999",
            "9999999999999999999",
            "[]",
            "{}",
            "[null]",
            "[[]]",
            "[{}]",
            """{"typed":null,"unit":"L","value":1}""",
            """{"typed":"1","unit":"ppt","value":1}""",
            """{"typed":"-1","unit":"g","value":-1}""",
            """{"typed":"1","unit":"L","value":1e999}""",
            """[{"seen":1,"volume":null},null]""",
        ];
        var unreadable = 0;
        foreach (var sample in Samples.All)
        {
            var kind = Kinds.Of(sample);
            var whole = JsonNode.Parse(kind.Write(sample))!.AsObject();
            foreach (var member in whole.Select(m => m.Key).ToList())
            {
                foreach (var thing in anything)
                {
                    // By hand, since a node tree would not hold 1e999.
                    var body = string.Join(
                        ',',
                        whole.Select(m =>
                            $"\"{m.Key}\":{(m.Key == member ? thing : m.Value!.ToJsonString())}"
                        )
                    );
                    var fact = Kinds.Read(kind.Name, 1, Encoding.UTF8.GetBytes($"{{{body}}}"));
                    Assert.NotEmpty(fact.Subjects());
                    Assert.Null(fact.Impossible());
                    unreadable += fact is UnreadableFact ? 1 : 0;
                }
            }

            foreach (var text in new[] { "", "null", "[]", "1", "{", "{}{}", "\u0000" })
            {
                var fact = Kinds.Read(kind.Name, 1, Encoding.UTF8.GetBytes(text));
                Assert.IsType<UnreadableFact>(fact);
            }
        }

        Assert.True(unreadable > 1000, $"{unreadable}");
    }

    [Fact]
    public void Every_kind_is_written_as_the_long_way_writes_it()
    {
        foreach (var sample in Samples.All)
        {
            var plain = JsonSerializer.SerializeToUtf8Bytes(
                sample,
                FactJson.Default.Options.GetTypeInfo(sample.GetType())
            );
            var written = Kinds.Of(sample).Write(sample);
            Assert.Equal(CanonicalJson.Anew(plain), written);
        }
    }

    [Fact]
    public void Letters_of_every_alphabet_and_signs_of_markup_come_out_as_the_long_way_writes_them()
    {
        foreach (var text in new[] { "größer", "<b>&'+\"", "\u2028 \u007F", "🦐", "a\tb\\", "\u0001" })
        {
            var note = new Keeping.NoteWritten(text);
            var plain = JsonSerializer.SerializeToUtf8Bytes(note, FactJson.Default.NoteWritten);
            var written = Kinds.Of(note).Write(note);
            Assert.Equal(CanonicalJson.Anew(plain), written);
            Assert.Equal(note, Kinds.Read("note written", 1, written));
        }
    }

    [Fact]
    public void An_older_shape_is_lifted_step_by_step()
    {
        var kind = new Kind<Keeping.NoteWritten>(
            "note written",
            first => Encoding.UTF8.GetBytes($$"""{"words":{{first.GetProperty("said").GetRawText()}}}"""),
            second => Encoding.UTF8.GetBytes($$"""{"text":{{second.GetProperty("words").GetRawText()}}}""")
        );
        Assert.Equal(3, kind.Version);
        Assert.Equal(new Keeping.NoteWritten("x"), kind.Read(1, """{"said":"x"}"""u8));
        Assert.Equal(new Keeping.NoteWritten("x"), kind.Read(2, """{"words":"x"}"""u8));
        Assert.Equal(new Keeping.NoteWritten("x"), kind.Read(3, """{"text":"x"}"""u8));
        Assert.IsType<UnreadableFact>(kind.Read(1, """{"text":"x"}"""u8));
        Assert.IsType<UnreadableFact>(kind.Read(1, "[]"u8));
    }

    private static string Camel(PropertyInfo property) =>
        JsonNamingPolicy.CamelCase.ConvertName(property.Name);

    private static IEnumerable<string> NumbersIn(Type type, string before)
    {
        foreach (var property in type.GetProperties())
        {
            var name = before + Camel(property);
            var inner = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
            if (
                inner == typeof(TypedNumber)
                || inner == typeof(double)
                || inner == typeof(int)
                || inner == typeof(long)
            )
            {
                yield return name;
            }
            else if (inner.IsGenericType && inner.GetGenericTypeDefinition() == typeof(IReadOnlyList<>))
            {
                foreach (var deeper in NumbersIn(inner.GetGenericArguments()[0], name + "."))
                {
                    yield return deeper;
                }
            }
        }
    }

    private static IEnumerable<Subject> Named(object? value) =>
        value switch
        {
            AnimalId id => [Subject.Of(id)],
            BroodId id => [Subject.Of(id)],
            RunId id => [Subject.Of(id)],
            VesselId id => [Subject.Of(id)],
            CohortId id => [Subject.Of(id)],
            InstrumentId id => [Subject.Of(id)],
            IReadOnlyList<CohortId> ids => ids.Select(Subject.Of),
            _ => [],
        };
}
