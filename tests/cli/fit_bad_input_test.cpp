// Bad and absurd cells about cases: a clear error or an unknown claim, never a crash, and never a
// number that is none.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "asking.hpp"
#include "folder.hpp"

namespace rigproof::cli_test {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

// A small catalog of its own; each test changes some of it.
struct SmallCatalog {
  std::string cases = "id,name,width_mm,height_mm,depth_mm,card_slots\nbox,Box,210,450,420,7\n";
  std::string mounts =
      "case,mount,face,fan_sizes_mm,fan_places,radiators_mm,depth_mm\n"
      "box,front,front,120,3,360,60\nbox,top,top,120,2,240,55\n";
  std::string clearances =
      "case,limits,when,by_mm\nbox,card-length,always,330\nbox,card-length,front,3\n"
      "box,cooler-height,always,165\n";
  std::string fans = "case,mount,size_mm,count\nbox,front,120,1\n";
  std::string cards = "id,name,length_mm,height_mm,thickness_mm,slots\ncard,Card,300,120,50,3\n";
  std::string coolers =
      "id,name,type,height_mm,radiator_mm,radiator_thickness_mm,fan_mm,fan_thickness_mm,fans\n"
      "loop,Loop,liquid,55,360,27,120,25,3\n";
  std::string build = "name = \"small\"\ncase = \"box\"\ngpu = \"card\"\ncooler = \"loop\"\n";
};

Ran fit(const SmallCatalog& made, const Folder& folder, std::vector<std::string> more = {}) {
  const std::string catalog = folder / "catalog";
  std::filesystem::create_directories(catalog);
  const auto put = [&](const char* table, const std::string& text) {
    if (!text.empty()) write_bytes(catalog + "/" + table + ".csv", text);
  };
  put("case", made.cases);
  put("case_mounts", made.mounts);
  put("case_clearances", made.clearances);
  put("case_fans", made.fans);
  put("gpu", made.cards);
  put("cooler", made.coolers);
  write_bytes(folder / "build.toml", made.build);
  std::vector<std::string> words = {"fit", folder / "build.toml", "--catalog", catalog};
  words.insert(words.end(), more.begin(), more.end());
  return rigproof(words);
}

TEST(FitBadInput, TheSmallCatalogIsSound) {
  const Folder folder;
  const Ran ran = fit({}, folder);
  EXPECT_EQ(ran.err, "");
  EXPECT_THAT(ran.out, HasSubstr("radiator of Loop"));
}

TEST(FitBadInput, NegativeAndAbsurdSizesAreRefusedWithTheirPlace) {
  const Folder folder;
  SmallCatalog negative;
  negative.clearances = "case,limits,when,by_mm\nbox,card-length,always,-330\n";
  const Ran ran = fit(negative, folder);
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, AllOf(HasSubstr("case_clearances.csv:2:24"), HasSubstr("-330")));
  SmallCatalog absurd;
  absurd.cards = "id,name,length_mm\ncard,Card,30000\n";
  const Ran long_card = fit(absurd, folder);
  EXPECT_EQ(long_card.exit_code, 2);
  EXPECT_THAT(long_card.err, AllOf(HasSubstr("gpu.csv:2:11"), HasSubstr("30000")));
  absurd.cards = "id,name,length_mm\ncard,Card,nan\n";
  EXPECT_EQ(fit(absurd, folder).exit_code, 2);
}

// The largest sizes that are allowed, in the smallest case: claims fail, drawings are drawn.
TEST(FitBadInput, TheLargestPartsInTheSmallestCaseAreDrawn) {
  const Folder folder;
  SmallCatalog made;
  made.cases = "id,name,width_mm,height_mm,depth_mm,card_slots\nbox,Box,50,50,50,0\n";
  made.cards = "id,name,length_mm,height_mm,thickness_mm,slots\ncard,Card,600,250,150,6\n";
  made.clearances =
      "case,limits,when,by_mm\nbox,card-length,always,0\nbox,card-length,front,500\n"
      "box,cooler-height,always,0\n";
  const Ran ran = fit(made, folder, {"-o", folder / "drawn"});
  EXPECT_EQ(ran.exit_code, 1);
  EXPECT_THAT(ran.out, HasSubstr("fails     The card Card is short enough"));
  for (const char* file : {"side.svg", "top.svg", "front.svg", "drawing.svg", "scene.json"}) {
    const std::string bytes = bytes_of(folder / "drawn" + "/" + file);
    EXPECT_THAT(bytes, Not(IsEmpty())) << file;
    for (const char* bad : {"nan", "inf\"", "-inf"})
      EXPECT_THAT(bytes, Not(HasSubstr(bad))) << file;
  }
}

TEST(FitBadInput, ACaseWithoutMountsOrRoomsIsUnknown) {
  const Folder folder;
  SmallCatalog bare;
  bare.mounts = bare.clearances = bare.fans = "";
  const Ran ran = fit(bare, folder);
  EXPECT_THAT(ran.err, Not(HasSubstr("error")));
  EXPECT_THAT(ran.out, HasSubstr("unknown   The card Card is short enough"));
  EXPECT_THAT(ran.out, HasSubstr("nowhere"));
}

TEST(FitBadInput, ANameThatNoMountOfTheCaseHas) {
  const Folder folder;
  SmallCatalog slip;
  slip.clearances += "box,card-length,frnot,25\n";
  const Ran room = fit(slip, folder);
  EXPECT_EQ(room.exit_code, 2);
  EXPECT_THAT(room.err, AllOf(HasSubstr("case_clearances.csv:5:17: the case has no such mount"),
                              HasSubstr("bay-3.5"), HasSubstr("front, top"), HasSubstr("frnot")));
  SmallCatalog fans;
  fans.fans += "box,lid,120,1\n";
  EXPECT_THAT(fit(fans, folder).err, HasSubstr("case_fans.csv:3:5: the case has no such mount"));
  SmallCatalog skipped;
  skipped.clearances += "box,card-length,frnot,25\n";
  EXPECT_THAT(fit(skipped, folder, {"--skip-bad"}).out, HasSubstr("radiator of Loop"));
}

TEST(FitBadInput, TwoMountsOfOneName) {
  const Folder folder;
  SmallCatalog twice;
  twice.mounts += "box,front,front,140,2,280,60\n";
  const Ran ran = fit(twice, folder);
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("case_mounts.csv:4"));
}

TEST(FitBadInput, ABuildThatNamesAMountTheCaseLacks) {
  const Folder folder;
  SmallCatalog made;
  made.build += "[mounts]\ncooler = \"attic\"\n";
  const Ran ran = fit(made, folder);
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, AllOf(HasSubstr("there is no such place"), HasSubstr("\"front\", \"top\""),
                             HasSubstr("attic")));
}

}  // namespace
}  // namespace rigproof::cli_test
